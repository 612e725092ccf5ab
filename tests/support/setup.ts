import './golden.js';

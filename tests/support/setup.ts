import './golden.js';
import './numbers.js';

export { createRaster, type Raster } from './raster/raster.js';

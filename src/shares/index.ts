export * from './off-peak-kwh.js';
export * from './off-peak-share.js';

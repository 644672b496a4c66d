export * from './break-even-off-peak-share.js';
export * from './break-even-rate.js';

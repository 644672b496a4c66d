export * from './break-even-off-peak-share.js';
export * from './break-even-rate.js';
export * from './difference-range.js';
export * from './future-mean-reach.js';

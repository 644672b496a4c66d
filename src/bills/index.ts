export * from './bill-figures.js';
export * from './reconcile-bill.js';

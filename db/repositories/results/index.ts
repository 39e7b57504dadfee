/** The results table: filters, pages, counts. */
export * from './list-results';
export type { ResultFilter } from './result-filter';

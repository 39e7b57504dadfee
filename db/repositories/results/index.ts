/** The results table: filters, pages, counts; and one result. */
export * from './list-results';
export * from './read-result';
export type { ResultRow } from './result-columns';
export type { ResultFilter } from './result-filter';

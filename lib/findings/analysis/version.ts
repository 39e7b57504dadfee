/**
 * Of the methods behind a stored analysis. Raise it with every change after which the same counts and seed give another
 * result (a frozen test tells), so that results of different methods are never mixed nor compared as if they were alike.
 */
export const ANALYSIS_VERSION = '3';

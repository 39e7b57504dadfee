import type { FormulaName } from '../components/formula';

/** A paragraph, a list, or a formula with what its letters mean. */
export type Block = string | readonly string[] | { formula: FormulaName; where: string };

/** A section of a page that is read from top to bottom; `id` is its address within the page. */
export interface ArticleSection {
  id: string;
  heading: string;
  blocks: readonly Block[];
}

/** A term of the glossary. */
export interface Term {
  term: string;
  meaning: string;
}

/** What a policy says in numbers that are public. */
export interface PolicyNumbers {
  version: string;
  minimumTested: number;
  minimumOperations: number;
  unanimousOperations: number;
  windowLength: number;
}

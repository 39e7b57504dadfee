import type { Quantity, Triple } from './shift-model';
import type { EarlierValue } from './standing';

/** What one sender would know of the others in a withheld cell, as the audit found: it must be left open. */
export interface SenderNeed {
  cell: number;
  quantity: Exclude<Quantity, 'tested'>;
  /** It was a part by active of this cell that it knew: where the cell cannot be left open, the audit has the last word. */
  ofPart?: boolean;
  /** What this sender has in each cell of the pair. */
  own: ReadonlyMap<number, Triple>;
}

/** What binds the choice beside the cells themselves. Indices are those of the table's cells. */
export interface Ties {
  /** For each cell: an earlier release showed it, withheld it, or leaves it free (null). */
  standing: readonly ('shown' | 'withheld' | null)[];
  earlier: readonly (readonly EarlierValue[])[];
  senders: readonly SenderNeed[];
}

import type { Design } from '@/lib/vocabulary/terms';
import type { Point } from './point-in-county';

/** One bag of seed as it is, before the laboratory looks at it. */
export interface Population {
  /** Number on bag and sheet. */
  sample: string;
  /** Indices into the region's counties and the scenario's species. */
  county: number;
  species: number;
  operation: string;
  sender: string;
  design: Design;
  crop: string;
  point: Point | null;
  /** Where in the field, in a few words; mostly blank. */
  notes: string;
  /** ISO days. */
  collected: string;
  received: string;
  consent: 'Y' | 'N' | '';
  viable: boolean;
  /** The latent truth, by test of the species and by active of the test. */
  resistantTo: boolean[][];
}

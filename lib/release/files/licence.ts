import type { ReleaseDraft } from '../types';

export interface Licence {
  /** SPDX identifier. */
  id: string;
  title: string;
  url: string;
}

/**
 * The licence of a release's data: the one that the programme chose. Invented data of a demonstration are given away;
 * of real data nothing is said that the programme did not say.
 */
export function licenceOf(head: ReleaseDraft['head'], chosen: Licence | null): Licence | null {
  return chosen ?? (head.simulated ? CC0 : null);
}

const CC0: Licence = {
  id: 'CC0-1.0',
  title: 'Creative Commons Zero 1.0 (simulated data, given away)',
  url: 'https://creativecommons.org/publicdomain/zero/1.0/',
};

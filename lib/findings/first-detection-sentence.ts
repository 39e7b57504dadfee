import { upperLimit } from '@/lib/stats/clopper-pearson';
import { periodLabel } from '@/lib/vocabulary/terms';
import type { Names } from './names';
import type { FirstDetection, Observation } from './types';
import { number, ofScreened, percent } from './wording';

/** What a first detection says, and what it cannot say. */
export function firstDetectionSentence(
  detection: Omit<FirstDetection, 'sentence'>,
  first: Observation,
  clean: Observation | null,
  hidden: boolean,
  names: Names,
): string {
  const { species, group, placeKind, place, period, how, arrival } = detection;
  const found =
    `${names.species(species)}, group ${group}: ${hidden ? 'first shown as confirmed' : 'first confirmed'} in ` +
    `${names.place(placeKind, place)} (${periodLabel(period)}; ${ofScreened(first.resistant, first.tested)}).`;
  if (how === 'earlier record not shown') {
    return `${found} An earlier count of this ${placeKind} is not shown, so nobody can say from here whether it is new.`;
  }
  if (!clean) {
    return `${found} It was found at the first test of this ${placeKind}, so it may have been there for years.`;
  }
  return (
    `${found} New after a clean record: none was found among ${number(clean.tested)} screened in ${periodLabel(clean.period)} ` +
    `(so few leave room for up to ${percent(upperLimit(0, clean.tested))} unseen). As far as that goes it came after ` +
    `${arrival!.after} and by ${arrival!.by}.`
  );
}

import type { PlaceKind } from '@/lib/geography/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { firstDetectionSentence } from './first-detection-sentence';
import { comparePlaces } from './known-places';
import { CODES, type Names } from './names';
import type { FirstDetection, Observation, WithheldCell } from './types';

export interface FirstDetectionInput {
  /** Of one species × group at this kind of place, in any order; periods must not overlap. */
  observations: readonly Observation[];
  /** Cells of the same table that were screened and are not shown; empty where the caller knows all. */
  withheld: readonly WithheldCell[];
  placeKind: PlaceKind;
  names?: Names;
}

/**
 * The first period with a resistant population for each place, by what was known there before. Only `new after a clean
 * record` speaks of arrival: whoever is tested for the first time may have had it for years.
 *
 * @returns ascending by place; places where none was confirmed are left out
 * @throws RangeError where a place has two observations in overlapping periods, or an observation is of another kind
 */
export function findFirstDetections(input: FirstDetectionInput): FirstDetection[] {
  const { placeKind, withheld, names = CODES } = input;
  const found: FirstDetection[] = [];
  for (const [place, record] of records(input)) {
    const at = record.findIndex(({ resistant }) => resistant > 0);
    const first = record[at];
    if (!first) continue;
    const clean = record[at - 1] ?? null;
    const hidden = withheld.some(
      (cell) => cell.placeKind === placeKind && cell.place === place && cell.period.last < first.period.first,
    );
    const detection: Omit<FirstDetection, 'sentence'> = {
      kind: 'first detection',
      species: first.species,
      group: first.group,
      placeKind,
      place,
      period: first.period,
      how: clean ? 'new after a clean record' : hidden ? 'earlier record not shown' : 'found at first test',
      lastClean: clean?.period ?? null,
      arrival: clean && { after: clean.period.last, by: first.period.last },
    };
    found.push({ ...detection, sentence: firstDetectionSentence(detection, first, clean, hidden, names) });
  }
  return found;
}

/** The tested periods of each place in order, places ascending. */
function records({ observations, placeKind }: FirstDetectionInput): [string, Observation[]][] {
  const byPlace = new Map<string, Observation[]>();
  for (const observation of observations) {
    if (observation.placeKind !== placeKind) {
      throw new RangeError(`Got an observation of a ${observation.placeKind}; expected ${placeKind} only.`);
    }
    if (observation.tested === 0) continue;
    const record = byPlace.get(observation.place);
    if (record) record.push(observation);
    else byPlace.set(observation.place, [observation]);
  }
  for (const [place, record] of byPlace) {
    record.sort((a, b) => a.period.first - b.period.first);
    record.forEach(({ period }, i) => {
      const next = record[i + 1];
      if (!next || next.period.first > period.last) return;
      throw new RangeError(
        `${placeKind} ${place} has observations of ${periodLabel(period)} and ${periodLabel(next.period)}, which overlap: give one table of periods.`,
      );
    });
  }
  return [...byPlace].sort(([a], [b]) => comparePlaces(a, b));
}

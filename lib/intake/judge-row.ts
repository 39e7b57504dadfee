import { type CaseDefinition, resultOf } from '@/lib/vocabulary/case-definition';
import { saysNothing } from '@/lib/vocabulary/normal-text';
import { seasonOf } from '@/lib/vocabulary/seasons';
import { species } from '@/lib/vocabulary/species';
import type { Eppo, Group } from '@/lib/vocabulary/terms';
import type { Judged } from './judged';
import type { PlaceContext } from './place-context';
import { readCounts } from './read-counts';
import { readDates } from './read-dates';
import { readHerbicide } from './read-herbicide';
import { readPlace } from './read-place';
import { readRate } from './read-rate';
import type { SheetRow } from './read-sheet';
import { readTexts } from './read-texts';
import { readWeed } from './read-weed';
import { readAssay, readCheck, readConsent, readDesign } from './read-words';
import { asks, type Problem, type Reading, read } from './reading';

export interface RowContext {
  places: PlaceContext;
  /** The day that counts as today, ISO. */
  asOf: string;
  definition: CaseDefinition;
}

/** A row as read, before its outcome is known, with all that speaks against it. */
export interface ReadRow {
  row: Judged;
  problems: Problem[];
}

/** Reads all cells of a row. `row` is complete but for outcome, reasons, kind and result. */
export function readRow({ record, line, cells, raw }: SheetRow, context: RowContext): ReadRow {
  const assay = readAssay(cells.assay);
  const design = readDesign(cells.design);
  const counts = readCounts(cells, context.definition.minimumPlants[assay.value ?? 'whole plant']);
  const wasTested = !counts.problems.some(({ code }) => code === 'NOT_TESTABLE');
  const rate = wasTested ? readRate(cells.rate, assay.value) : read({ multiple: null });
  const check = wasTested ? readCheck(cells.check) : read(true);
  const place = readPlace(cells, context.places);
  const weed = readWeed(cells.weed);
  const herbicide = readHerbicide(cells.herbicide);
  const spectrum = readSpectrum(weed.value, herbicide.value?.group ?? null);
  const dates = readDates(cells, context.asOf);
  const consent = readConsent(cells.share);
  const sample = readSample(cells.sample);

  const readings = [
    place,
    weed,
    herbicide,
    spectrum,
    rate,
    counts,
    check,
    dates,
    sample,
    design,
    assay,
    consent,
  ];
  return {
    problems: readings.flatMap(({ problems }) => problems),
    row: {
      record,
      line,
      outcome: 'accepted',
      reasons: [],
      flags: [...readings.flatMap(({ flags }) => flags), ...readTexts(cells)],
      kind: null,
      sample: sample.value,
      season: dates.value ? seasonOf(dates.value.collected) : null,
      collected: dates.value?.collected ?? null,
      datePrecision: dates.value?.datePrecision ?? null,
      received: dates.value?.received ?? null,
      county: place.value?.county ?? null,
      locatedBy: place.value?.locatedBy ?? null,
      lat: place.value?.lat ?? null,
      lon: place.value?.lon ?? null,
      species: weed.value,
      group: herbicide.value?.group ?? null,
      actives: herbicide.value?.actives ?? [],
      assay: assay.value,
      rateMultiple: rate.value?.multiple ?? null,
      treated: counts.value?.treated ?? null,
      alive: counts.value?.alive ?? null,
      result: null,
      design: design.value,
      crop: textOf(cells.crop),
      funder: textOf(cells.funder),
      sender: textOf(cells.sender),
      operation: textOf(cells.operation),
      laboratory: textOf(cells.laboratory),
      publicShare: consent.value ?? false,
      raw,
    },
  };
}

/** The result of a row that nothing speaks against. */
export function resultOfRow(row: Judged, definition: CaseDefinition): Judged['result'] {
  const { assay, rateMultiple, treated, alive } = row;
  if (assay === null || treated === null || alive === null) return null;
  return resultOf(definition, { assay, rateMultiple, treated, alive });
}

/** Survival of a plant that the group never controlled is tolerance. */
function readSpectrum(eppo: Eppo | null, group: Group | null): Reading<true> {
  const plant = eppo === null ? null : species(eppo);
  if (!plant || group === null || !plant.neverSusceptibleTo.includes(group)) return read(true);
  const reason = `Group ${group} never controlled ${plant.commonName}: survival is tolerance, not resistance.`;
  return asks('herbicide', 'OUTSIDE_SPECTRUM', reason, 'Which weed or herbicide was meant?');
}

function readSample(text: string): Reading<string> {
  if (!saysNothing(text)) return read(text);
  return asks('sample', 'SAMPLE_MISSING', 'The sample number is blank.', 'What does the bag say?');
}

function textOf(text: string): string | null {
  return saysNothing(text) ? null : text;
}

import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { seasonOf } from '@/lib/vocabulary/seasons';
import { species } from '@/lib/vocabulary/species';
import type { Assay, Eppo, Group, Result } from '@/lib/vocabulary/terms';
import { isBlankCell } from './blank-cell';
import { checkOf } from './check-row';
import type { CheckKind } from './confirmation/judge-run';
import { resultOf } from './confirmation/result-of';
import type { Judged, RowDetails } from './judged';
import { parseDate } from './parse-date';
import type { PlaceContext } from './place-context';
import { readCheck } from './read-check';
import { readCounts } from './read-counts';
import { readDates } from './read-dates';
import { readDetails } from './read-details';
import { readHerbicide } from './read-herbicide';
import { PLACE_COLUMNS, readPlace } from './read-place';
import { readRate } from './read-rate';
import { readResult } from './read-result';
import { FREE_TEXT, readTexts } from './read-texts';
import { readWeed } from './read-weed';
import { readAssay, readConsent, readDesign } from './read-words';
import { asks, doubts, type Problem, quoted, type Reading, read } from './reading';
import { remembering, rememberingLast } from './remembering';
import type { Cells } from './row-cells';
import type { SheetRow } from './sheet-row';

export interface RowContext {
  /** The day that counts as today, ISO. */
  asOf: string;
  definition: CaseDefinition;
  readers: Readers;
}

/** Readers of cells that are the same over and over, on a map. */
export type Readers = ReturnType<typeof createReaders>;

export function createReaders(places: PlaceContext) {
  const date = remembering(parseDate);
  return {
    weed: remembering(readWeed),
    herbicide: remembering(readHerbicide),
    rate: rateReaders(false),
    doseOfRun: rateReaders(true),
    design: remembering(readDesign),
    assay: remembering(readAssay),
    consent: remembering(readConsent),
    place: rememberingLast(PLACE_COLUMNS, (cells) => readPlace(cells, places)),
    dates: rememberingLast(['collected', 'received'], (cells, asOf) => readDates(cells, asOf, date)),
    texts: rememberingLast(FREE_TEXT, readTexts),
  };
}

function rateReaders(isOfRun: boolean) {
  return remembering((text) => ({
    'whole plant': readRate(text, 'whole plant', isOfRun),
    'soil-applied': readRate(text, 'soil-applied', isOfRun),
    molecular: readRate(text, 'molecular', isOfRun),
  }));
}

/** A row as read, before its outcome is known, with all that speaks against it. */
export interface ReadRow {
  row: Judged;
  problems: Problem[];
}

/** Reads all cells of a row. `row` is complete but for outcome, reasons, kind and result. */
export function readRow({ record, line, cells, raw, fields }: SheetRow, context: RowContext): ReadRow {
  const check = checkOf(cells);
  const { readers } = context;
  const assay = readers.assay(cells.assay);
  const design = readers.design(cells.design);
  // One tray of several may hold few plants: the test that they make is held against the minimum.
  const minimum = isBlankCell(cells.replicate)
    ? context.definition.minimumPlants[assay.value ?? 'whole plant']
    : 1;
  const screened = readScreened(cells, minimum, assay.value);
  const wasTested = !screened.problems.some(({ code }) => code === 'NOT_TESTABLE');
  const ratesOf = isBlankCell(cells.run) ? readers.rate : readers.doseOfRun;
  const rate =
    wasTested && check !== 'untreated' ? ratesOf(cells.rate)[assay.value ?? 'whole plant'] : NO_RATE;
  const checks = wasTested && check === null ? readCheck(cells) : NO_CHECKS;
  const weed = readers.weed(cells.weed);
  const herbicide = readers.herbicide(cells.herbicide);
  const population =
    check === null ? readPopulation(cells, context, weed, herbicide) : readCheckRow(cells, check);
  const alive = screened.value?.alive ?? null;
  const details = readDetails(cells, {
    species: weed.value,
    group: herbicide.value?.group ?? null,
    alive,
    asOf: context.asOf,
  });

  const { place, dates, consent, sample } = population;
  const { readings } = population;
  readings.push(screened, rate, checks, design, assay);
  if (check === null) readings.push(details);
  const row: Judged = {
    record,
    line,
    outcome: 'accepted',
    reasons: [],
    flags: allFlags(readings, readers.texts(cells)),
    kind: null,
    sample: sample?.value ?? null,
    season: dates?.value ? seasonOf(dates.value.collected) : null,
    collected: dates?.value?.collected ?? null,
    datePrecision: dates?.value?.datePrecision ?? null,
    received: dates?.value?.received ?? null,
    county: place?.value?.county ?? null,
    locatedBy: place?.value?.locatedBy ?? null,
    certainty: place?.value?.certainty ?? null,
    lat: place?.value?.lat ?? null,
    lon: place?.value?.lon ?? null,
    species: weed.value,
    group: herbicide.value?.group ?? null,
    actives: herbicide.value?.actives ?? [],
    assay: assay.value,
    rateMultiple: rate.value?.multiple ?? null,
    run: textOf(cells.run),
    replicate: textOf(cells.replicate),
    treated: screened.value?.treated ?? null,
    alive,
    result: null,
    design: design.value,
    crop: textOf(cells.crop),
    funder: textOf(cells.funder),
    sender: textOf(cells.sender),
    operation: textOf(cells.operation),
    bag: textOf(cells.bag),
    laboratory: textOf(cells.laboratory),
    publicShare: consent?.value ?? false,
    details: detailsOf(details.value, checks.value, screened.value?.stated, check),
    raw,
    fields,
  };
  const problems = allProblems(readings);
  if (problems.length === 0 && check === null) problems.push(...disagreement(row, cells, context.definition));
  return { row, problems };
}

function allFlags(readings: readonly Reading<unknown>[], more: readonly string[]): string[] {
  const all: string[] = [];
  for (const { flags } of readings) if (flags.length > 0) all.push(...flags);
  if (more.length > 0) all.push(...more);
  return all;
}

function allProblems(readings: readonly Reading<unknown>[]): Problem[] {
  const all: Problem[] = [];
  for (const { problems } of readings) if (problems.length > 0) all.push(...problems);
  return all;
}

/** What a row says of the population that it is about. */
interface Population {
  readings: Reading<unknown>[];
  place?: ReturnType<typeof readPlace>;
  dates?: ReturnType<typeof readDates>;
  consent?: Reading<boolean>;
  sample?: Reading<string>;
}

function readPopulation(
  cells: Cells,
  context: RowContext,
  weed: Reading<Eppo>,
  herbicide: ReturnType<typeof readHerbicide>,
): Population {
  const place = context.readers.place(cells);
  const spectrum = readSpectrum(weed.value, herbicide.value?.group ?? null);
  const dates = context.readers.dates(cells, context.asOf);
  const consent = context.readers.consent(cells.share);
  const sample = readSample(cells.sample);
  return {
    readings: [place, weed, herbicide, spectrum, dates, sample, consent],
    place,
    dates,
    consent,
    sample,
  };
}

/** A check needs its run and no place. */
function readCheckRow({ run }: Cells, check: CheckKind): Population {
  if (!isBlankCell(run)) return { readings: [] };
  const reason = `The row is about the ${check === 'untreated' ? 'untreated plants' : `${check} check`}, but names no run.`;
  return { readings: [asks('run', 'CHECK_RUN', reason, 'Of which run is it the check?')] };
}

/** Plants counted, or where there are none the result that is stated. */
interface Screened {
  treated: number | null;
  alive: number | null;
  stated?: Result;
}

function readScreened(cells: Cells, minimum: number, assay: Assay | null): Reading<Screened> {
  const isCounted = !isBlankCell(cells.alive) || isBlankCell(cells.result);
  const fraction = !isCounted && /^\d+\s*(\/|of)\s*\d/.test(cells.result);
  if (isCounted || fraction) {
    const counts: Reading<Screened> = readCounts(
      fraction ? { ...cells, alive: cells.result } : cells,
      minimum,
    );
    if (isBlankCell(cells.result) || fraction || counts.value === null) return counts;
    const { value } = readResult(cells.result, assay);
    return value === null ? counts : { ...counts, value: { ...counts.value, stated: value } };
  }
  const { value, ...stated } = readResult(cells.result, assay);
  return { ...stated, value: value === null ? null : { treated: null, alive: null, stated: value } };
}

/** A question where the sheet calls a population otherwise than its plants do; the plants decide if it stands. */
function disagreement(row: Judged, { result: text }: Cells, definition: CaseDefinition): Problem[] {
  const { stated } = row.details;
  if (stated === undefined || row.alive === null) return [];
  const counted = resultOfRow(row, definition);
  const opposite = new Set([stated, counted]);
  if (!opposite.has('resistant') || !opposite.has('susceptible')) return [];
  const reason = `The row says ${quoted(text)}, but ${row.alive} of ${row.treated} plants alive are ${counted} by the case definition ${definition.version}.`;
  return doubts(
    true,
    'result',
    'RESULT_DISAGREES',
    reason,
    'Do the counts stand, or is one of the two wrong?',
  ).problems;
}

const NO_RATE: Reading<{ multiple: number | null }> = { value: { multiple: null }, flags: [], problems: [] };
const NO_CHECKS: Reading<Pick<RowDetails, 'susceptibleCheck'>> = { value: {}, flags: [], problems: [] };
const NO_DETAILS: RowDetails = Object.freeze({});

function detailsOf(
  details: RowDetails | null,
  checks: RowDetails | null,
  stated: Result | undefined,
  check: CheckKind | null,
): RowDetails {
  if (stated === undefined && check === null && !checks?.susceptibleCheck) return details ?? NO_DETAILS;
  return { ...details, ...checks, ...(stated && { stated }), ...(check && { check }) };
}

/** The result of a row that nothing speaks against. */
export function resultOfRow(row: Judged, definition: CaseDefinition): Judged['result'] {
  const { assay, rateMultiple, treated, alive, details } = row;
  if (assay === null) return null;
  if (treated === null || alive === null) return details.stated ?? null;
  return resultOf(definition, { assay, rateMultiple, treated, alive, emerged: details.emerged ?? null });
}

/** Survival of a plant that the group never controlled is tolerance. */
function readSpectrum(eppo: Eppo | null, group: Group | null): Reading<true> {
  const plant = eppo === null ? null : species(eppo);
  if (!plant || group === null || !plant.neverSusceptibleTo.includes(group)) return read(true);
  const reason = `Group ${group} never controlled ${plant.commonName}: survival is tolerance, not resistance.`;
  return asks('herbicide', 'OUTSIDE_SPECTRUM', reason, 'Which weed or herbicide was meant?');
}

function readSample(text: string): Reading<string> {
  if (!isBlankCell(text)) return read(text);
  return asks('sample', 'SAMPLE_MISSING', 'The sample number is blank.', 'What does the bag say?');
}

function textOf(text: string): string | null {
  return isBlankCell(text) ? null : text;
}

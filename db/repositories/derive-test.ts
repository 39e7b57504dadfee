import { deriveResult, type Tray } from '@/lib/intake/confirmation/derive-result';
import type { Reason } from '@/lib/intake/judged';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Result } from '@/lib/vocabulary/terms';
import type { TestKind } from '../schema/surveillance';
import { RUNS_DIFFER } from './runs-differ';
import type { StoredTray } from './trays';

/** A test made of its records. */
export interface DerivedTest {
  /** By column of `surveillance.test`. */
  row: {
    key: string;
    population_id: number;
    treated: number | null;
    alive: number | null;
    kind: TestKind;
    result: Result | null;
    case_definition: string;
    contradictory: boolean;
    [column: string]: unknown;
  };
  /** What is asked where its runs contradict each other and no person let the sum stand. */
  question: Reason | null;
  trays: readonly StoredTray[];
}

/**
 * Makes a test of its records, all of one key: it is screened where one of them was, in a valid run; else its runs are
 * void; else it could not be tested.
 */
export function deriveTest(trays: readonly StoredTray[], definition: CaseDefinition): DerivedTest {
  const first = trays[0]!;
  const screened = trays.filter(({ kind }) => kind === 'tested');
  const derived = deriveResult(definition, first, screened.map(trayOf));
  const isTested = screened.length > 0 && derived.kind !== 'void';
  const differs = derived.kind === 'runs differ' && !screened.some(({ overruled }) => overruled);
  const said = derived.kind === 'runs differ' ? derived.pooled : derived;
  const kind = isTested
    ? 'tested'
    : trays.some((tray) => tray.kind !== 'not testable')
      ? 'void run'
      : 'not testable';
  return {
    row: {
      key: first.key,
      population_id: first.populationId,
      species: first.species,
      group_number: first.group,
      actives: first.actives,
      assay: first.assay,
      rate_multiple: first.rateMultiple,
      treated: said.kind === 'result' ? said.treated : first.treated,
      alive: said.kind === 'result' ? said.alive : first.alive,
      kind,
      result: said.kind !== 'result' ? null : differs ? 'inconclusive' : said.result,
      case_definition: definition.version,
      contradictory: differs,
      sheet_id: first.sheetId,
      record: first.record,
    },
    question: differs ? runsDiffer(derived) : null,
    trays,
  };
}

function trayOf({ run, replicate, runValid, treated, alive, details }: StoredTray): Tray {
  return {
    run,
    replicate,
    valid: runValid,
    treated,
    alive,
    emerged: details.emerged ?? null,
    stated: details.stated ?? null,
  };
}

function runsDiffer({
  runs,
  pooled,
}: Extract<ReturnType<typeof deriveResult>, { kind: 'runs differ' }>): Reason {
  const shown = runs.map(
    ({ run, alive, treated, result }) =>
      `run ${run ?? 'without a name'}: ${alive} of ${treated} alive, ${result}`,
  );
  return {
    code: RUNS_DIFFER,
    column: 'the whole test',
    key: null,
    value: '',
    reason: `The runs of this test differ (${shown.join('; ')}).`,
    remedy: `Until a person decides it counts as inconclusive. Together they make ${pooled.alive} of ${pooled.treated}: ${pooled.result}. Does the sum stand, or does one of the runs not count?`,
    candidates: [],
    memorable: false,
    mayStand: true,
  };
}

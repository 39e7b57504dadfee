import { asc, eq, isNotNull, isNull } from 'drizzle-orm';
import type { District } from '@/lib/geography/types';
import { LICENCES, licenceOf } from '@/lib/release/files/licence';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { programme, season } from '../schema/surveillance';
import { listDistricts } from './districts';
import { addHistory } from './history';

/** The programme that owns this database. */
export interface Programme {
  name: string;
  regionName: string;
  /** Two-letter postal abbreviations. */
  states: string[];
  /** True where the data are simulated: every page, picture and file then says so. */
  simulated: boolean;
  /** Laboratory of a sheet that names none. */
  laboratory: string;
  /** Version of the case definition that it chose; null = the one in force on the day. */
  caseDefinition: string | null;
  /** SPDX identifier of the licence of its releases' data; null = none chosen, which their files say. */
  licence: string | null;
  /** Whom to ask, as it stands on letters and pages; '' = not said. */
  contact: string;
  /** Where seed is sent, with what to send along; '' = not said. */
  samplesTo: string;
  /** What the law of the region asks of finders of regulated weeds; '' = not said. */
  regulatedNotice: string;
  /** Whether a release is published by another person than the one who drafted it. */
  twoPublishers: boolean;
  /** Its own grouping of counties; empty where it brought none. */
  districts: District[];
}

/** A season; `closedAt` (ISO instant) is null while it is open. */
export interface SeasonState {
  year: number;
  closedAt: string | null;
}

/** The programme, or null before it was set. */
export async function getProgramme(db: StaffDatabase): Promise<Programme | null> {
  const [row] = await db.select(PROGRAMME).from(programme);
  return row ? { ...row, districts: await listDistricts(db) } : null;
}

const PROGRAMME = {
  name: programme.name,
  regionName: programme.regionName,
  states: programme.states,
  simulated: programme.simulated,
  laboratory: programme.laboratory,
  caseDefinition: programme.caseDefinition,
  licence: programme.licence,
  contact: programme.contact,
  samplesTo: programme.samplesTo,
  regulatedNotice: programme.regulatedNotice,
  twoPublishers: programme.twoPublishers,
};

/**
 * Sets the programme once. The same again changes nothing; another one is a `UserError`, because everything stored
 * so far belongs to the first.
 */
export async function setProgramme(db: StaffDatabase, wanted: Founding): Promise<void> {
  await db.insert(programme).values(wanted).onConflictDoNothing();
  const stored = await getProgramme(db);
  if (stored === null || JSON.stringify(picked(stored)) === JSON.stringify(picked(wanted))) return;
  throw new UserError(
    `This database already belongs to the programme “${stored.name}” (region ${stored.regionName}, ` +
      `${stored.states.join(', ')}), so it cannot become “${wanted.name}”.`,
    'Use another database (DATABASE_URL) or another data folder (FENCEROW_DATA) for the other programme.',
  );
}

/** What is said once; the rest is chosen later, and can be chosen anew. */
type Founding = Pick<Programme, 'name' | 'regionName' | 'states' | 'simulated' | 'laboratory'>;

const picked = ({ name, regionName, states, simulated, laboratory }: Founding) => ({
  name,
  regionName,
  states,
  simulated,
  laboratory,
});

/** What a programme says of itself and may say otherwise at any time. */
export type Saying = Pick<
  Programme,
  'name' | 'laboratory' | 'licence' | 'contact' | 'samplesTo' | 'regulatedNotice' | 'twoPublishers'
>;

/**
 * Changes what the programme says of itself. Releases keep what they said.
 *
 * @throws UserError before there is a programme, for an unknown licence, and for another name of the simulated one
 */
export async function changeProgramme(
  db: StaffDatabase,
  { saying, by }: { saying: Saying; by: string },
): Promise<void> {
  const before = await getProgramme(db);
  if (!before) throw noProgramme();
  if (before.simulated && saying.name !== before.name) {
    throw new UserError(
      'The simulated programme keeps its name.',
      'Another programme has a database of its own.',
    );
  }
  const licence = knownLicence(saying.licence);
  await db.$client.begin(async (sql) => {
    await sql`update surveillance.programme set name = ${saying.name}, laboratory = ${saying.laboratory},
      licence = ${licence}, contact = ${saying.contact}, samples_to = ${saying.samplesTo},
      regulated_notice = ${saying.regulatedNotice}, two_publishers = ${saying.twoPublishers}`;
    await addHistory(sql, { by, what: 'programme changed', before, after: saying });
  });
}

/**
 * Chooses the licence of the data of releases to come, by its SPDX identifier; null takes the choice back. What is
 * released stays under what it was released.
 *
 * @throws UserError for a licence that is not on the list, and before there is a programme
 */
export async function chooseLicence(db: StaffDatabase, id: string | null): Promise<void> {
  const licence = knownLicence(id);
  const changed = await db.update(programme).set({ licence }).returning({ name: programme.name });
  if (changed.length > 0) return;
  throw noProgramme();
}

function noProgramme(): UserError {
  return new UserError('No programme is set up here.', 'Import a sheet first: npm run import -- SHEET');
}

/** A licence's identifier as the list has it; null for none. @throws UserError for one that is not on the list */
export function knownLicence(id: string | null): string | null {
  const licence = licenceOf(id);
  if (licence || id === null) return licence?.id ?? null;
  throw new UserError(
    `“${id}” is no licence of the list.`,
    `Choose one of ${LICENCES.map((one) => one.id).join(', ')}.`,
  );
}

/** All seasons that have data or were closed, ascending. */
export async function listSeasons(db: StaffDatabase): Promise<SeasonState[]> {
  return (await db.select().from(season).orderBy(asc(season.year))).map(state);
}

/** Closed seasons' years, ascending. */
export async function closedSeasons(db: StaffDatabase): Promise<number[]> {
  const rows = await db.select().from(season).where(isNotNull(season.closedAt)).orderBy(asc(season.year));
  return rows.map(({ year }) => year);
}

/** Closes a season; `at` is the ISO instant. Closing a closed season keeps its first date; a season without data too can be closed. */
export async function closeSeason(
  db: StaffDatabase,
  { year, at }: { year: number; at: string },
): Promise<SeasonState> {
  await db
    .insert(season)
    .values({ year, closedAt: new Date(at) })
    .onConflictDoUpdate({
      target: season.year,
      set: { closedAt: new Date(at) },
      setWhere: isNull(season.closedAt),
    });
  const [row] = await db.select().from(season).where(eq(season.year, year));
  if (row === undefined) throw new Error(`season ${year} vanished while it was being closed`);
  return state(row);
}

function state({ year, closedAt }: typeof season.$inferSelect): SeasonState {
  return { year, closedAt: closedAt?.toISOString() ?? null };
}

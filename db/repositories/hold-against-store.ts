import type { TransactionSql } from 'postgres';
import { jsonText } from '../bulk';
import { type Change, type Claim, judgeAgainstStore, type StandingContext } from './standing';
import type { Rows } from './store-rows';

/** Records that are looked at together. */
const STEP = 5_000;

/**
 * Holds rows that were just stored against what other sheets brought, and changes those that these know better. Only
 * rows about which the store may know something are read back.
 *
 * @returns what changed
 */
export async function holdAgainstStore(
  sql: TransactionSql,
  context: StandingContext,
  rows: Pick<Rows, 'first' | 'last'>,
): Promise<Change[]> {
  const changes: Change[] = [];
  const suspects = await findSuspects(sql, context, rows);
  for (let i = 0; i < suspects.length; i += STEP) {
    const claims = await readClaims(sql, context, suspects.slice(i, i + STEP));
    const held = await judgeAgainstStore(sql, context, claims);
    const isChanged = (claim: Claim, at: number) => claim !== claims[at];
    await writeBack(sql, context, held.records.filter(isChanged));
    // A row that was not accepted anyway says so in its report already.
    const wasAccepted = new Set(
      claims.flatMap((claim) => (claim.outcome === 'accepted' ? claim.record : [])),
    );
    changes.push(...held.changes.filter(({ record }) => wasAccepted.has(record)));
  }
  return changes;
}

/** Whether a sheet stands beside this one. */
export async function hasOtherSheets(
  sql: TransactionSql,
  { sheetId }: Pick<StandingContext, 'sheetId'>,
): Promise<boolean> {
  return (await sql`select from intake.sheet where id <> ${sheetId} and undone_at is null limit 1`).count > 0;
}

/** Numbers of the rows whose test, sample, bag or field is known from another sheet. */
async function findSuspects(
  sql: TransactionSql,
  { laboratory, sheetId }: StandingContext,
  { first, last }: Pick<Rows, 'first' | 'last'>,
): Promise<number[]> {
  const rows = await sql<{ record: number }[]>`
    select i.record from intake.record i
    where i.sheet_id = ${sheetId} and i.record between ${first} and ${last} and i.kind is not null and i.kind <> 'check' and (
      exists (select from intake.record r where r.population_key = i.population_key and r.test_key = i.test_key
        and r.standing and r.kind is not null and r.sheet_id <> ${sheetId})
      or exists (select from surveillance.population p where p.key = i.population_key and p.sheet_id <> ${sheetId}
        and (p.county <> i.county or p.operation <> i.operation))
      or i.bag is not null and exists (select from intake.record r join intake.sheet s on s.id = r.sheet_id
        where s.laboratory = ${laboratory} and r.bag = i.bag and r.season = i.season and r.sample <> i.sample
          and r.standing and r.kind is not null and r.sheet_id <> ${sheetId})
      or i.kind = 'tested' and i.lat is not null and exists (select from intake.record r
        where r.operation = i.operation and r.season = i.season and r.sample <> i.sample and r.species = i.species
          and r.group_number = i.group_number and r.sheet_id < ${sheetId} and r.standing and r.kind = 'tested' and r.lat is not null))
    order by i.record`;
  return rows.map(({ record }) => record);
}

async function readClaims(
  sql: TransactionSql,
  { sheetId }: StandingContext,
  records: readonly number[],
): Promise<Claim[]> {
  return sql<Claim[]>`
    select record, outcome, kind, reasons, sample, season, species, county, lat, lon, group_number as "group",
      rate_multiple as "rateMultiple", run, replicate, operation, bag, population_key as "populationKey",
      test_key as "testKey", content_hash as "contentHash"
    from intake.record where sheet_id = ${sheetId} and record = any(${records as number[]}) order by record`;
}

async function writeBack(
  sql: TransactionSql,
  { sheetId }: StandingContext,
  claims: readonly Claim[],
): Promise<void> {
  if (claims.length === 0) return;
  const rows = claims.map(({ record, outcome, kind, reasons }) => ({ record, outcome, kind, reasons }));
  await sql`
    update intake.record i
    set outcome = c.outcome, kind = c.kind, reasons = c.reasons,
      population_key = null, test_key = null, content_hash = null
    from jsonb_to_recordset(${jsonText(rows)}::text::jsonb) as c (record int, outcome text, kind text, reasons jsonb)
    where i.sheet_id = ${sheetId} and i.record = c.record`;
}

import { asc, eq } from 'drizzle-orm';
import type { Column } from '@/lib/intake/columns';
import type { LaboratoryProfile } from '@/lib/intake/laboratory-profile';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { laboratory, reading } from '../schema/intake';
import { addHistory } from './history';
import { lockImports } from './lock';

/** What is remembered of a laboratory; nothing of one that has sent no sheet yet. */
export async function laboratoryProfile(db: StaffDatabase, name: string): Promise<LaboratoryProfile> {
  const [stored] = await db.select().from(laboratory).where(eq(laboratory.name, name));
  const readings = await db
    .select({ column: reading.column, text: reading.text, as: reading.readAs })
    .from(reading)
    .where(eq(reading.laboratory, name));
  return { headings: stored?.headings ?? {}, lacking: stored?.lacking ?? {}, readings };
}

/** The names of all laboratories that are known. */
export async function listLaboratories(db: StaffDatabase): Promise<string[]> {
  return (await db.select().from(laboratory).orderBy(asc(laboratory.name))).map(({ name }) => name);
}

/** What is to be remembered from now on; null forgets. */
export interface ProfileChange {
  headings?: Record<string, Column | null | undefined>;
  lacking?: Partial<Record<Column, string | null>>;
  readings?: readonly { column: Column; text: string; as: string | null }[];
}

/** Changes what is remembered of a laboratory. It says how later sheets are read, and changes nothing that is stored. */
export async function changeLaboratory(
  db: StaffDatabase,
  { name, change, by }: { name: string; change: ProfileChange; by: string },
): Promise<LaboratoryProfile> {
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    await sql`insert into intake.laboratory (name) values (${name}) on conflict do nothing`;
    const [stored] = await sql<Pick<LaboratoryProfile, 'headings' | 'lacking'>[]>`
      select headings, lacking from intake.laboratory where name = ${name}`;
    const headings = merged(stored!.headings, change.headings ?? {}, undefined);
    const lacking = merged(stored!.lacking, change.lacking ?? {}, null);
    await sql`
      update intake.laboratory set headings = ${jsonText(headings)}::text::jsonb, lacking = ${jsonText(lacking)}::text::jsonb
      where name = ${name}`;
    for (const { column, text, as } of change.readings ?? []) {
      if (as === null) {
        await sql`delete from intake.reading where laboratory = ${name} and column_name = ${column} and text = ${text}`;
        continue;
      }
      await sql`
        insert into intake.reading (laboratory, column_name, text, read_as) values (${name}, ${column}, ${text}, ${as})
        on conflict (laboratory, column_name, text) do update set read_as = excluded.read_as`;
    }
    await addHistory(sql, { by, what: 'laboratory changed', before: stored, after: { name, ...change } });
  });
  return laboratoryProfile(db, name);
}

/** Entries of `changes` over those of `old`; one that says `forget` is left out. */
function merged<T>(
  old: Record<string, T>,
  changes: Record<string, unknown>,
  forget: null | undefined,
): Record<string, T> {
  const all = Object.entries({ ...old, ...changes }).filter(([, value]) => value !== forget);
  return Object.fromEntries(all) as Record<string, T>;
}

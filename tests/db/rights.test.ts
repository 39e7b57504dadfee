import postgres, { type Sql } from 'postgres';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type TestDatabase, testDatabase } from '../support/database';

let database: TestDatabase;
let everybody: Sql;
let staff: Sql;

beforeAll(async () => {
  database = await testDatabase();
  everybody = postgres(database.publicUrl, { max: 1, onnotice: () => {} });
  staff = postgres(database.staffUrl, { max: 1, onnotice: () => {} });
});

afterAll(async () => {
  await Promise.all([everybody.end(), staff.end()]);
  await database.drop();
});

/** What PostgreSQL answers to somebody without the right (SQLSTATE class 42, insufficient privilege). */
const REFUSED = { code: '42501' };

describe('the public role', () => {
  it('reads every table of release', async () => {
    const tables = await staff<{ name: string }[]>`
      select table_name as name from information_schema.tables where table_schema = 'release'`;
    expect(tables.map(({ name }) => name).sort()).toEqual([
      'cell',
      'erratum',
      'file',
      'finding',
      'multiple_cell',
      'part_cell',
      'release',
      'status',
    ]);
    for (const { name } of tables) {
      expect(await everybody.unsafe(`select count(*)::int as rows from release.${name}`)).toEqual([
        { rows: 0 },
      ]);
    }
  });

  it('cannot read one private table, nor see what a view or a function of ours might tell', async () => {
    const tables = await staff<{ name: string }[]>`
      select table_schema || '.' || table_name as name from information_schema.tables
      where table_schema in ('access', 'intake', 'surveillance')`;
    expect(tables.length).toBeGreaterThan(30);
    for (const { name } of tables) {
      await expect(everybody.unsafe(`select * from ${name}`), name).rejects.toMatchObject(REFUSED);
    }
    await expect(everybody`select * from drizzle.__drizzle_migrations`).rejects.toMatchObject(REFUSED);
  });

  it('holds a right on no relation, schema or column outside release and the system', async () => {
    const rights = await everybody`
      select c.oid::regclass::text as relation
      from pg_class c join pg_namespace n on n.oid = c.relnamespace
      where n.nspname not in ('release', 'pg_catalog', 'information_schema', 'pg_toast') and c.relkind in ('r', 'v', 'm', 'S', 'p', 'f')
        and (case when c.relkind = 'S' then has_sequence_privilege(c.oid, 'usage, select, update')
          else has_any_column_privilege(c.oid, 'select, insert, update, references') or has_table_privilege(c.oid, 'delete, truncate, trigger') end)
      union all
      select nspname from pg_namespace
      where nspname not in ('release', 'pg_catalog', 'information_schema') and has_schema_privilege(oid, 'usage, create')
      union all
      select nspname from pg_namespace where has_schema_privilege(oid, 'create')`;
    expect([...rights]).toEqual([]);
  });

  it('cannot write, even after it has set its session to read and write', async () => {
    await everybody`set default_transaction_read_only = off`;
    try {
      for (const statement of [
        `insert into release.release (number, date, head) values (1, '2026-02-10', '{}')`,
        `insert into release.status values (1, 'KCHSC', 9, 'state', 'NE', 'confirmed')`,
        'update release.release set withdrawn_at = now(), withdrawal_note = $$gone$$',
        'delete from release.cell',
        'truncate release.file',
        'create table public.mine (a int)',
        'create table release.mine (a int)',
        'create temp table mine (a int)',
        'create schema mine',
        'select intake.renew_statistics()',
        'create function release.mine() returns int language sql as $$select 1$$',
        'select lo_create(0)',
        `select lo_from_bytea(0, '\\x00')`,
        `copy release.cell to '/tmp/fencerow-leak'`,
        `copy release.cell to program 'true'`,
        `select pg_read_file('/etc/hostname')`,
        'alter role fencerow_public superuser',
        'set role fencerow_staff',
        'select nextval($$surveillance.population_id_seq$$)',
      ]) {
        await expect(everybody.unsafe(statement), statement).rejects.toMatchObject(REFUSED);
      }
    } finally {
      await everybody`set default_transaction_read_only = on`;
    }
  });

  it('starts read-only, with bounds on what a query may cost', async () => {
    const fresh = postgres(database.publicUrl, { max: 1 });
    try {
      const [settings] = await fresh`
        select current_setting('default_transaction_read_only') as "readOnly",
          current_setting('statement_timeout') as timeout, current_setting('lock_timeout') as lock`;
      expect(settings).toEqual({ readOnly: 'on', timeout: '10s', lock: '5s' });
    } finally {
      await fresh.end();
    }
  });

  it('cannot enter another database of the server', async () => {
    for (const name of ['postgres', 'template1']) {
      const url = new URL(database.publicUrl);
      url.pathname = `/${name}`;
      const other = postgres(url.href, { max: 1 });
      await expect(other`select 1`, name).rejects.toMatchObject(REFUSED);
      await other.end();
    }
  });

  it('sees nothing of what others are asking', async () => {
    await staff`select 'secret of the staff'`;
    const queries = await everybody<{ query: string | null }[]>`
      select query from pg_stat_activity where usename is distinct from current_user`;
    expect(queries.filter(({ query }) => query?.includes('secret of the staff'))).toEqual([]);
  });
});

describe('the staff role', () => {
  it('reads and writes what is private, and adds to release', async () => {
    await staff.begin(async (sql) => {
      await sql`insert into surveillance.season (year) values (1999)`;
      await sql`update surveillance.season set closed_at = now() where year = 1999`;
      await sql`delete from surveillance.season where year = 1999`;
      await sql`select * from intake.record`;
      await sql`select intake.renew_statistics()`;
    });
  });

  it('changes no schema, no role and no release', async () => {
    for (const statement of [
      'create table surveillance.mine (a int)',
      'create temp table mine (a int)',
      'alter table release.cell disable trigger all',
      'drop trigger refuse_change on release.cell',
      'truncate surveillance.test',
      `update access.activity set done_by = 'somebody else'`,
      'delete from access.activity',
      'truncate access.activity',
      'alter table access.activity disable trigger all',
      'delete from release.cell',
      'update release.release set head = $${}$$',
      'update release.status set status = $$confirmed$$',
      'alter role fencerow_public nologin',
      'select lo_create(0)',
      'set role fencerow_owner',
    ]) {
      await expect(staff.unsafe(statement), statement).rejects.toMatchObject(REFUSED);
    }
  });
});

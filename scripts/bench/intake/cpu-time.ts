import { readdirSync, readFileSync } from 'node:fs';

/** Seconds that this process and a database server have computed so far; the server's are 0 where there is no /proc. */
export interface CpuTime {
  own: number;
  server: number;
}

/** @param postmaster id of the server's first process: all that serve a connection are its children */
export function cpuTime(postmaster: number): CpuTime {
  const { user, system } = process.cpuUsage();
  return { own: (user + system) / 1e6, server: serverTime(postmaster) };
}

/** Ticks of `utime` and `stime` a second, as Linux counts for programs everywhere (proc_pid_stat(5), from memory). */
const TICKS = 100;

function serverTime(postmaster: number): number {
  let ticks = 0;
  for (const pid of processes()) {
    const fields = statOf(pid);
    if (fields !== null && Number(fields[1]) === postmaster) ticks += Number(fields[11]) + Number(fields[12]);
  }
  return ticks / TICKS;
}

function processes(): string[] {
  try {
    return readdirSync('/proc').filter((name) => /^\d+$/.test(name));
  } catch {
    return [];
  }
}

/** What stands after the name of a process, which may hold blanks: state, parent, … */
function statOf(pid: string): string[] | null {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    return text.slice(text.lastIndexOf(') ') + 2).split(' ');
  } catch {
    return null;
  }
}

import type { Highs } from 'highs';

let loading: Promise<Highs> | null = null;

/** The linear-programming solver (WebAssembly), started once for the process. Gate and audit share only this door. */
export function loadSolver(): Promise<Highs> {
  loading ??= import('highs').then((module) => module.default());
  return loading;
}

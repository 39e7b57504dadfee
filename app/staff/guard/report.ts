/** Writes what went wrong to the server's log, for whoever runs it; people are shown no details. */
export function report(where: string, error: unknown): void {
  process.stderr.write(`${where}: ${error instanceof Error ? error.stack : String(error)}\n`);
}

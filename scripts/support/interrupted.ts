/** Waits until somebody ends the process; a second signal ends it at once. */
export function interrupted(): Promise<void> {
  return new Promise((resolve) => {
    let asked = false;
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
      process.on(signal, () => {
        if (asked) process.exit(1);
        asked = true;
        resolve();
      });
    }
  });
}

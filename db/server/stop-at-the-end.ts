const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/**
 * Makes sure that `stop` (which blocks) runs once: when the returned function is called, when the process ends by
 * itself or by an error, or on a signal. On a signal the process then ends by it, unless others listen to it too:
 * those decide when to end.
 */
export function stopAtTheEnd(stop: () => void): () => void {
  const once = () => {
    process.off('exit', once);
    for (const signal of SIGNALS) process.off(signal, onSignal);
    stop();
  };
  const onSignal = (signal: NodeJS.Signals) => {
    if (process.listenerCount(signal) > 1) return;
    once();
    process.kill(process.pid, signal);
  };
  process.once('exit', once);
  for (const signal of SIGNALS) process.on(signal, onSignal);
  return once;
}

/**
 * Starts some work once, when a page has loaded and fallen idle while the element is in view, or as soon as the element
 * is touched, pointed at or focused. Where the reader asks to save data, touching it is needed.
 *
 * @returns a function that calls it off
 */
export function whenWanted(element: Element, work: () => void): () => void {
  const control = new AbortController();
  const start = () => {
    if (control.signal.aborted) return;
    control.abort();
    observer.disconnect();
    work();
  };
  for (const type of ['pointerenter', 'pointerdown', 'focusin']) {
    element.addEventListener(type, start, { signal: control.signal, passive: true });
  }
  const observer = new IntersectionObserver((entries) => {
    if (!entries.some((entry) => entry.isIntersecting)) return;
    observer.disconnect();
    if (document.readyState === 'complete') idle(start);
    else addEventListener('load', () => idle(start), { once: true, signal: control.signal });
  });
  const { connection } = navigator as Navigator & { connection?: { saveData?: boolean } };
  if (!connection?.saveData) observer.observe(element);
  return () => {
    control.abort();
    observer.disconnect();
  };
}

/** A quiet moment at least half a second from now, so that what the reader does first comes first. */
function idle(work: () => void): void {
  setTimeout(() => {
    if ('requestIdleCallback' in globalThis) requestIdleCallback(work, { timeout: 3_000 });
    else work();
  }, 500);
}

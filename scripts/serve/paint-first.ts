import type { Captured } from './captured-response';

/** A script that the framework has the browser fetch and run as early as it can. */
const EARLY = /<script src="(\/_next\/static\/[^"]+)"[^>]*\sasync=""[^>]*><\/script>/g;
const FETCHED_AHEAD = /<link rel="preload" as="script"[^>]*>/g;

/**
 * Lets a page be painted before its scripts are asked for: they do not change what is read, but fetched and run while
 * the page is still parsed they held its first picture back by a quarter. One small script of our own
 * (`public/start.js`) brings them in afterwards.
 *
 * @returns the page with its early scripts handed to that one; whatever is no page, or has none, as it was
 */
export function paintFirst(captured: Captured): Captured {
  if (!String(captured.headers['content-type'] ?? '').startsWith('text/html')) return captured;
  const html = captured.body.toString('utf8');
  const scripts = [...html.matchAll(EARLY)].map(([, src]) => src!);
  if (scripts.length === 0) return captured;
  const starter = `<script src="/start.js" async="" data-scripts="${scripts.join(' ')}"></script>`;
  const body = html
    .replace(EARLY, '')
    .replace(FETCHED_AHEAD, '')
    .replace('</head>', () => `${starter}</head>`);
  return { ...captured, body: Buffer.from(body, 'utf8') };
}

/**
 * Asks for the scripts of a page once what there is to read has been painted (`scripts/serve/paint-first.ts`). The
 * page can be read and its links and forms used without them, and on a slow phone they took the first second.
 */
(() => {
  const scripts = document.currentScript.dataset.scripts.split(' ');
  const start = () => {
    for (const src of scripts) {
      document.head.append(Object.assign(document.createElement('script'), { src }));
    }
  };
  // The end of a frame, so that what the parser has brought is seen first.
  const afterPaint = () => requestAnimationFrame(() => setTimeout(start));
  if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', afterPaint);
  else afterPaint();
  // A choice that was made before the page answers by itself is sent as a page without scripts would send it.
  document.addEventListener('change', ({ target }) => {
    const form = target.closest('form.view-form');
    if (form && !('answers' in form.dataset)) form.requestSubmit();
  });
})();

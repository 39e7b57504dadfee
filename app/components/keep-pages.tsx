'use client';

import { useEffect } from 'react';

/** Lets the browser keep pages of counties for reading without signal, where it can (`public/sw.js`). */
export function KeepPages() {
  useEffect(() => {
    const { serviceWorker } = navigator;
    if (!serviceWorker) return;
    // A browser that refuses keeps nothing, and the site is as it was.
    serviceWorker
      .register('/sw.js')
      .then(() => serviceWorker.ready)
      .then(({ active }) => active?.postMessage({ keep: location.pathname }))
      .catch(() => {});
  }, []);
  return null;
}

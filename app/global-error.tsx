'use client';

import Failed from './[language]/error';

/** Anything unforeseen in the layout itself. */
export default function GlobalFailed() {
  return (
    <html lang="en">
      <body>
        <Failed />
      </body>
    </html>
  );
}

'use client';

import { useEffect, useState } from 'react';

/** Copies the text of a field; without script there is no button, and the field can be copied by hand. */
export function CopyButton({ of, words, done }: { of: string; words: string; done: string }) {
  const [state, setState] = useState<'away' | 'ready' | 'done'>('away');
  useEffect(() => setState('ready'), []);
  const copy = async () => {
    const field = document.getElementById(of) as HTMLTextAreaElement;
    field.select();
    try {
      await navigator.clipboard.writeText(field.value);
    } catch {
      // Without leave for the clipboard the text stays selected, to be copied by its keys.
      return;
    }
    setState('done');
  };
  return (
    <p className="copy no-print">
      {state === 'away' ? null : (
        <button type="button" onClick={copy}>
          {words}
        </button>
      )}
      <span role="status">{state === 'done' ? done : ''}</span>
    </p>
  );
}

'use client';

import { type FormEvent, type ReactNode, useRef, useState } from 'react';
import { handedInTexts as texts } from '../../../messages/sheets';

/** After a choice, before it is sent: several at once are sent together. */
const WAIT_MS = 300;

/** Sends what a form holds to the server after each choice, and says whether it is kept there. */
export function Keeping({ address, children }: { address: string; children: ReactNode }) {
  const [state, setState] = useState<'kept' | 'keeping' | 'notKept' | 'signedOut' | null>(null);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const changed = ({ target }: FormEvent) => {
    const { form } = target as HTMLInputElement;
    if (!form) return;
    setState('keeping');
    clearTimeout(timer.current);
    timer.current = setTimeout(async () => {
      const body = new FormData();
      for (const [name, value] of new FormData(form)) if (!name.startsWith('$')) body.append(name, value);
      const answer = await fetch(address, { method: 'POST', body }).catch(() => null);
      setState(answer?.ok ? 'kept' : answer?.status === 401 ? 'signedOut' : 'notKept');
    }, WAIT_MS);
  };
  return (
    <div onChange={changed}>
      {children}
      <p role="status" className="staff-kept" data-state={state}>
        {state ? texts[state] : ''}
      </p>
    </div>
  );
}

'use client';

import { useLinkStatus } from 'next/link';
import { createContext, type ReactNode, use, useCallback, useEffect, useState, useTransition } from 'react';

const WaitContext = createContext<(by: 1 | -1) => void>(() => {});

/** Tells, for as long as any of what is inside waits for its answer, that it is under way. */
export function WaitRoom({ words, children }: { words: string; children: ReactNode }) {
  const [waiting, setWaiting] = useState(0);
  const count = useCallback((by: 1 | -1) => setWaiting((now) => now + by), []);
  return (
    <WaitContext value={count}>
      {children}
      <p className="wait" role="status">
        {waiting > 0 ? words : ''}
      </p>
    </WaitContext>
  );
}

/** `useTransition` of whatever waits as long as it is pending. */
export function useWaitedTransition(): ReturnType<typeof useTransition> {
  const transition = useTransition();
  useWait(transition[0]);
  return transition;
}

/** Inside a link: waits while the link is followed. */
export function LinkWait() {
  useWait(useLinkStatus().pending);
  return null;
}

/** Counts as waiting while `pending`. */
function useWait(pending: boolean): void {
  const count = use(WaitContext);
  useEffect(() => {
    if (!pending) return;
    count(1);
    return () => count(-1);
  }, [pending, count]);
}

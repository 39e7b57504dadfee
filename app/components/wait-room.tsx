'use client';

import Link from 'next/link';
import { useRouter } from 'next/navigation';
import { createContext, type ReactNode, startTransition, use, useCallback, useState } from 'react';
import { afterPaint } from '../live-map/after-paint';

const CountContext = createContext<(by: 1 | -1) => void>(() => {});
const WaitContext = createContext(false);

/** Tells, for as long as any of what is inside waits for its answer, that it is under way. */
export function WaitRoom({ words, children }: { words: string; children: ReactNode }) {
  const [waiting, setWaiting] = useState(0);
  const count = useCallback((by: 1 | -1) => setWaiting((now) => now + by), []);
  return (
    <CountContext value={count}>
      <WaitContext value={waiting > 0}>
        {children}
        <p className="wait" role="status">
          {waiting > 0 ? words : ''}
        </p>
      </WaitContext>
    </CountContext>
  );
}

/** Whether anything in the room waits. */
export function useIsWaiting(): boolean {
  return use(WaitContext);
}

/**
 * Shows another address in place of this page. The page answers what asks for it first, since the work to fetch it would
 * keep a tap waiting; from then on the room waits until it is there.
 */
export function useVisit(): (href: string, options?: { scroll?: boolean; replaces?: boolean }) => void {
  const router = useRouter();
  const count = use(CountContext);
  return useCallback(
    (href, { scroll = false, replaces = false } = {}) => {
      afterPaint(() => {
        count(1);
        startTransition(() => {
          // Shown together with the page that is waited for.
          count(-1);
          if (replaces) router.replace(href, { scroll });
          else router.push(href, { scroll });
        });
      });
    },
    [router, count],
  );
}

/** A link to another view of the same page, which waits while it is followed. */
export function ViewLink({
  href,
  isCurrent = false,
  children,
}: {
  href: string;
  isCurrent?: boolean;
  children: ReactNode;
}) {
  const visit = useVisit();
  return (
    <Link
      href={href}
      scroll={false}
      prefetch={false}
      aria-current={isCurrent ? 'true' : undefined}
      onNavigate={(event) => {
        event.preventDefault();
        visit(href);
      }}
    >
      {children}
    </Link>
  );
}

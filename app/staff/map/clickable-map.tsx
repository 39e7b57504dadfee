'use client';

import { useRouter } from 'next/navigation';

/** A map whose places lead on when they are tapped; the form above it does the same by keyboard. */
export function ClickableMap({ markup, href }: { markup: string; href: string }) {
  const router = useRouter();
  const open = (target: EventTarget) => {
    const place = (target as Element).closest('[data-place]')?.getAttribute('data-place');
    if (!place) return;
    const address = new URL(href, location.href);
    address.searchParams.set('place', place.split('+')[0]!);
    router.push(`${address.pathname}${address.search}`, { scroll: false });
  };
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: places are chosen by keyboard in the form
    // biome-ignore lint/a11y/noStaticElementInteractions: the same
    <div
      className="staff-map staff-map-open"
      onClick={(event) => open(event.target)}
      // biome-ignore lint/security/noDangerouslySetInnerHtml: markup made by our own figures, text escaped there
      dangerouslySetInnerHTML={{ __html: markup }}
    />
  );
}

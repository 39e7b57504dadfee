'use client';

import { createContext, type ReactNode, useCallback } from 'react';
import { useIsWaiting, useVisit } from './wait-room';

/** Shows the view that a form asks for. */
export const ChoiceContext = createContext<(form: FormData) => void>(() => {});

/** Tells `public/start.js` that choices are followed from now on. */
const answers = (form: HTMLFormElement | null) => {
  form?.setAttribute('data-answers', '');
};

/** The form around the choices. Without script it is sent as it is; with script the page changes in place. */
export function ChoiceForm({
  action,
  label,
  children,
}: {
  /** Address of the page that answers. */
  action: string;
  label: string;
  children: ReactNode;
}) {
  const visit = useVisit();
  const isWaiting = useIsWaiting();
  const follow = useCallback(
    (form: FormData) => {
      const entries = [...form].map(([name, value]) => [name, String(value)]);
      visit(`${action}?${new URLSearchParams(entries)}`);
    },
    [visit, action],
  );
  return (
    <form
      ref={answers}
      className="view-form"
      action={action}
      method="get"
      aria-label={label}
      aria-busy={isWaiting}
      onSubmit={(event) => {
        event.preventDefault();
        follow(new FormData(event.currentTarget));
      }}
    >
      <ChoiceContext value={follow}>{children}</ChoiceContext>
    </form>
  );
}

'use client';

import { useRouter } from 'next/navigation';
import { createContext, type ReactNode } from 'react';
import { useWaitedTransition } from './wait-room';

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
  const router = useRouter();
  const [pending, startTransition] = useWaitedTransition();
  const follow = (form: FormData) => {
    const entries = [...form].map(([name, value]) => [name, String(value)]);
    startTransition(() => router.push(`${action}?${new URLSearchParams(entries)}`, { scroll: false }));
  };
  return (
    <form
      ref={answers}
      className="view-form"
      action={action}
      method="get"
      aria-label={label}
      aria-busy={pending}
      onSubmit={(event) => {
        event.preventDefault();
        follow(new FormData(event.currentTarget));
      }}
    >
      <ChoiceContext value={follow}>{children}</ChoiceContext>
    </form>
  );
}

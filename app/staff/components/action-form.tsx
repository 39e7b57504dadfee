'use client';

import { createContext, type ReactNode, use, useActionState } from 'react';
import type { Outcome } from '../guard/outcome';
import { staff } from '../messages/en';

/** What came of the form's last sending, for its fields. */
export const OutcomeContext = createContext<Outcome | null>(null);

/**
 * A form that sends an action (`staffAction`). Works without script as an ordinary form. What came of it stands above
 * the fields; what was entered stays where something was wrong.
 */
export function ActionForm(props: {
  action: (before: Outcome | null, form: FormData) => Promise<Outcome>;
  /** Words of the button. */
  submit: string;
  /** Name of the form for a screen reader. */
  label?: string;
  /** True for what cannot be taken back. */
  grave?: boolean;
  /** True where it can only be read: nothing can be entered or sent. */
  fixed?: boolean;
  /** How to show what only the person who asked may see, where that is more than texts. */
  present?: (shown: Record<string, string>) => ReactNode;
  className?: string;
  children?: ReactNode;
}) {
  const { action, submit, label, grave, fixed, present, className = 'staff-form', children } = props;
  const [outcome, send, pending] = useActionState(action, null);
  return (
    <OutcomeContext value={outcome}>
      <form action={send} className={className} aria-label={label} aria-busy={pending}>
        <OutcomeWords outcome={outcome} present={present} />
        {fixed ? (
          <fieldset className="staff-fixed" disabled>
            {children}
          </fieldset>
        ) : (
          <>
            {children}
            <button type="submit" className={grave ? 'grave' : undefined} aria-disabled={pending}>
              {pending ? staff.form.working : submit}
            </button>
          </>
        )}
      </form>
    </OutcomeContext>
  );
}

function OutcomeWords(props: {
  outcome: Outcome | null;
  present?: (shown: Record<string, string>) => ReactNode;
}) {
  const { outcome, present = presentTexts } = props;
  const isGood = outcome?.state === 'done';
  return (
    <div role={isGood ? 'status' : 'alert'} className="staff-outcome" data-state={outcome?.state}>
      {outcome ? <p>{outcome.message}</p> : null}
      {outcome?.state === 'signed out' ? (
        <p>
          <a href="/staff/sign-in" target="_blank" rel="noreferrer">
            {staff.form.openSignIn}
          </a>
        </p>
      ) : null}
      {outcome?.shown ? present(outcome.shown) : null}
    </div>
  );
}

function presentTexts(shown: Record<string, string>): ReactNode {
  return Object.entries(shown).map(([what, value]) => (
    <p key={what}>
      {what} <code className="staff-shown">{value}</code>
    </p>
  ));
}

/** What was entered last under a name, or what is wrong with it. */
export function useEntered(name: string): { value?: string | string[]; wrong?: string } {
  const outcome = use(OutcomeContext);
  return { value: outcome?.values?.[name], wrong: outcome?.fields?.[name] };
}

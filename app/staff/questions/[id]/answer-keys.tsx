'use client';

import { type ReactNode, useEffect, useRef, useState } from 'react';
import { questionTexts as texts } from '../../messages/questions';

const SWITCH = 'fencerow answer keys';

/**
 * Answers by keys, which can be switched off (WCAG 2.1.4); and keeps what is entered in this browser until it is sent, so
 * that it is there again after a crash.
 */
export function AnswerKeys({ next, draft, children }: { next: string; draft: string; children: ReactNode }) {
  const box = useRef<HTMLDivElement>(null);
  const [isOn, setOn] = useState(true);
  const [wasKept, setKept] = useState(false);

  useEffect(() => {
    setOn(localStorage.getItem(SWITCH) !== 'off');
    setKept(putBack(box.current!, draft));
  }, [draft]);

  useEffect(() => {
    if (!isOn) return;
    const press = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
      if (event.key.toLowerCase() === 'n') location.assign(next);
      const wanted = box.current?.querySelector<HTMLInputElement>(`input[data-number="${event.key}"]`);
      if (!wanted) return;
      event.preventDefault();
      wanted.click();
      wanted.focus();
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [isOn, next]);

  return (
    <div ref={box} onInput={() => keep(box.current!, draft)} onSubmit={() => localStorage.removeItem(draft)}>
      {wasKept ? <p role="status">{texts.draft}</p> : null}
      {children}
      <section className="staff-keys" aria-label={texts.keys}>
        <label className="staff-tick">
          <input
            type="checkbox"
            checked={isOn}
            onChange={({ target }) => {
              setOn(target.checked);
              localStorage.setItem(SWITCH, target.checked ? 'on' : 'off');
            }}
          />
          <span>{texts.keysOn}</span>
        </label>
        <p className="quiet">{texts.keysText}</p>
      </section>
    </div>
  );
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !['radio', 'checkbox', 'submit'].includes(target.type);
  return (
    target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable
  );
}

/** Fields that a person fills in, by their place on the page. */
function fieldsOf(box: HTMLElement): HTMLInputElement[] {
  return [...box.querySelectorAll<HTMLInputElement>('form input:not([type="hidden"])')];
}

const isTicked = ({ type }: HTMLInputElement) => type === 'radio' || type === 'checkbox';

function keep(box: HTMLElement, draft: string): void {
  const values = fieldsOf(box).map((field) => (isTicked(field) ? field.checked : field.value));
  localStorage.setItem(draft, JSON.stringify(values));
}

/** Whether something was put back. */
function putBack(box: HTMLElement, draft: string): boolean {
  const values = JSON.parse(localStorage.getItem(draft) ?? 'null') as (string | boolean)[] | null;
  const fields = fieldsOf(box);
  if (values?.length !== fields.length) return false;
  fields.forEach((field, at) => {
    const value = values[at];
    if (isTicked(field)) {
      if (field.checked !== value) field.click();
    } else if (typeof value === 'string') field.value = value;
  });
  return true;
}

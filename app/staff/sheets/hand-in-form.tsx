'use client';

import { type DragEvent, type FormEvent, useId, useRef, useState } from 'react';
import { sheetTexts as texts } from '../messages/sheets';

/**
 * Hands a sheet in, dropped or chosen: an ordinary form that sends a file, so that it works without script. What is wrong
 * with it is said here, and the file stays chosen.
 */
export function HandIn({ mostBytes, laboratories }: { mostBytes: number; laboratories: readonly string[] }) {
  const most = texts.size(mostBytes);
  const id = useId();
  const file = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  const [sending, setSending] = useState(false);
  const [wrong, setWrong] = useState('');

  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    if (file.current && event.dataTransfer.files.length > 0) file.current.files = event.dataTransfer.files;
  };
  const send = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const chosen = file.current?.files?.[0];
    if (chosen && chosen.size > mostBytes) return setWrong(texts.tooLarge(most));
    setSending(true);
    setWrong('');
    try {
      const body = new FormData(event.currentTarget);
      const answer = await fetch('/staff/sheets/hand-in', { method: 'POST', body });
      if (answer.ok) location.assign(answer.url);
      else setWrong((await answer.text()).trim());
    } catch {
      setWrong(texts.notSent);
    } finally {
      setSending(false);
    }
  };
  return (
    <form
      action="/staff/sheets/hand-in"
      method="post"
      encType="multipart/form-data"
      className="staff-form staff-hand-in"
      data-over={isOver || undefined}
      aria-busy={sending}
      aria-label={texts.handIn}
      onSubmit={send}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <p>{texts.handInText(most)}</p>
      <div role="alert" className="staff-outcome">
        {wrong ? <p>{wrong}</p> : null}
      </div>
      <div className="staff-field">
        <label htmlFor={`${id}-laboratory`}>{texts.laboratory}</label>
        <p id={`${id}-hint`} className="staff-hint">
          {texts.laboratoryHint}
        </p>
        <input
          id={`${id}-laboratory`}
          name="laboratory"
          list={`${id}-known`}
          defaultValue={laboratories[0]}
          aria-describedby={`${id}-hint`}
          required
          maxLength={200}
        />
        <datalist id={`${id}-known`}>
          {laboratories.map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      </div>
      <div className="staff-field">
        <label htmlFor={`${id}-file`}>{texts.drop}</label>
        <input
          id={`${id}-file`}
          ref={file}
          type="file"
          name="sheet"
          accept=".csv,.tsv,.txt,.xlsx,.xlsm"
          required
        />
      </div>
      <button type="submit" aria-disabled={sending}>
        {sending ? texts.sending : texts.handInButton}
      </button>
    </form>
  );
}

'use client';

import { type KeyboardEvent, useId, useRef, useState } from 'react';
import type { Texts } from '../messages/texts';
import { useVisit } from './wait-room';

type Named = readonly [fips: string, name: string];

const MOST = 8;

/**
 * Finds a county by how its name begins. A plain form, which the page answers; with script the names that fit are listed
 * while one types. The names are asked for when the field is first entered, or typed in.
 */
export function PlaceSearch({
  action,
  kept,
  leadsTo,
  stay = false,
  names,
  texts,
}: {
  action: string;
  /** What the address of the answer holds besides. */
  kept: Readonly<Record<string, string>>;
  /** Address of a county, with `FIPS` where its code belongs. */
  leadsTo: string;
  /** The page keeps its scroll position when a county is chosen. */
  stay?: boolean;
  /** Address of the names of all counties. */
  names: string;
  texts: Texts['layers']['search'];
}) {
  const id = useId();
  const visit = useVisit();
  const asked = useRef(false);
  const [all, setAll] = useState<readonly Named[] | null>(null);
  const [typed, setTyped] = useState('');
  const [isOpen, setOpen] = useState(false);
  const [at, setAt] = useState(-1);

  // What was typed before the names came is looked for when they are there.
  const fitting = fittingNames(all ?? [], typed);

  const load = async () => {
    if (asked.current) return;
    asked.current = true;
    const answer = await fetch(names).catch(() => null);
    if (answer?.ok) setAll((await answer.json()) as Named[]);
    else asked.current = false;
  };
  const type = (text: string) => {
    // The field may have been entered before this script was there.
    load();
    setTyped(text);
    setAt(-1);
    setOpen(text.trim() !== '');
  };
  const choose = ([fips]: Named) => {
    setOpen(false);
    setTyped('');
    visit(leadsTo.replace('FIPS', fips), { scroll: !stay });
  };
  const press = (event: KeyboardEvent) => {
    if (event.key === 'Escape') setOpen(false);
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step && fitting.length > 0) {
      event.preventDefault();
      setOpen(true);
      setAt((at + step + fitting.length) % fitting.length);
    }
    const chosen = fitting[at] ?? (fitting.length === 1 ? fitting[0] : undefined);
    if (event.key === 'Enter' && isOpen && chosen) {
      event.preventDefault();
      choose(chosen);
    }
  };
  return (
    <search className="place-search">
      <form
        action={action}
        method="get"
        onBlur={({ currentTarget, relatedTarget }) => currentTarget.contains(relatedTarget) || setOpen(false)}
      >
        {Object.entries(kept).map(([name, value]) => (
          <input key={name} type="hidden" name={name} value={value} />
        ))}
        <label htmlFor={`${id}field`}>{texts.label}</label>
        <div className="search-row">
          <input
            id={`${id}field`}
            type="text"
            name="find"
            value={typed}
            placeholder={texts.hint}
            autoComplete="off"
            spellCheck={false}
            role="combobox"
            aria-expanded={isOpen}
            aria-controls={`${id}list`}
            aria-autocomplete="list"
            aria-activedescendant={isOpen && at >= 0 ? `${id}${at}` : undefined}
            onFocus={load}
            onChange={(event) => type(event.currentTarget.value)}
            onKeyDown={press}
          />
          <button type="submit">{texts.go}</button>
        </div>
        <div
          id={`${id}list`}
          role="listbox"
          aria-label={texts.label}
          hidden={!isOpen || fitting.length === 0}
        >
          {fitting.map((named, i) => (
            <div
              key={named[0]}
              id={`${id}${i}`}
              role="option"
              tabIndex={-1}
              aria-selected={i === at}
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => choose(named)}
              onKeyDown={press}
            >
              {named[1]}
            </div>
          ))}
        </div>
        <p className="quiet" aria-live="polite">
          {isOpen && all?.length && fitting.length === 0 ? texts.none : ''}
        </p>
      </form>
    </search>
  );
}

/** Names that begin so come first, then those with a word that does. */
function fittingNames(all: readonly Named[], text: string): Named[] {
  const wanted = plain(text);
  if (wanted === '') return [];
  const begins = all.filter(([, name]) => plain(name).startsWith(wanted));
  const within = all.filter(([, name]) => plain(name).includes(` ${wanted}`));
  return [...new Set([...begins, ...within])].slice(0, MOST);
}

function plain(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();
}

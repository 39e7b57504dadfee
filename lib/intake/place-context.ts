import { createLocator, type Locator } from '@/lib/geography/locate';
import { type CountyMatch, findCountyByName } from '@/lib/geography/names';
import { findState } from '@/lib/geography/states';
import type { County, State } from '@/lib/geography/types';
import { saysNothing } from '@/lib/vocabulary/normal-text';
import { remembering } from './remembering';

/** The map that rows are placed on. */
export interface PlaceContext {
  /** Postal abbreviations of the programme's states. */
  states: ReadonlySet<string>;
  locator: Locator;
  /** The state that a text names, or null; null as well for a cell that says nothing. */
  state(text: string): State | null;
  /** As `findCountyByName` over all counties, each question asked once. */
  match(text: string, state: string | null): CountyMatch;
}

/**
 * @param states postal abbreviations of the programme's region
 * @param counties all counties, those outside the region too: a wrong place must be recognised
 */
export function createPlaceContext(states: readonly string[], counties: readonly County[]): PlaceContext {
  const known = new Map<string, CountyMatch>();
  return {
    states: new Set(states),
    locator: locatorOf(counties),
    state: remembering((text) => (saysNothing(text) ? null : findState(text))),
    match(text, state) {
      const key = `${state}|${text}`;
      let match = known.get(key);
      if (!match) {
        match = findCountyByName(text, state, counties);
        if (known.size >= MOST_KEPT) known.clear();
        known.set(key, match);
      }
      return match;
    },
  };
}

const MOST_KEPT = 20_000;

/** A locator takes a tenth of a second to build: one for each list of counties. */
function locatorOf(counties: readonly County[]): Locator {
  const locator = LOCATORS.get(counties) ?? createLocator(counties);
  LOCATORS.set(counties, locator);
  return locator;
}

const LOCATORS = new WeakMap<readonly County[], Locator>();

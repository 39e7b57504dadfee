import type { PlaceKind } from '@/lib/vocabulary/terms';
import { count } from '../format';

const ONE: Record<PlaceKind, string> = {
  region: 'región',
  state: 'estado',
  district: 'distrito',
  area: 'condado o área',
  county: 'condado',
};

const SEVERAL: Record<PlaceKind, string> = {
  region: 'regiones',
  state: 'estados',
  district: 'distritos',
  area: 'condados y áreas',
  county: 'condados',
};

/** `1 distrito`, `24 condados y áreas`. */
export function places(number: number, kind: PlaceKind): string {
  return `${count(number)} ${number === 1 ? ONE[kind] : SEVERAL[kind]}`;
}

/** `condado o área`. */
export function singular(kind: PlaceKind): string {
  return ONE[kind];
}

/** `1 población`, `1,240 poblaciones`. */
export function populations(number: number): string {
  return `${count(number)} ${number === 1 ? 'población' : 'poblaciones'}`;
}

/** `29 de 41 poblaciones evaluadas en 24 distritos resultaron resistentes`, `ninguna de 6 …`. */
export function ofScreened({ resistant, tested }: Counted, where = ''): string {
  const whose = `${resistant === 0 ? 'ninguna' : count(resistant)} de ${populations(tested)}`;
  const screened = tested === 1 ? 'evaluada' : 'evaluadas';
  const were = resistant > 1 ? 'resultaron resistentes' : 'resultó resistente';
  return `${whose} ${screened}${where} ${were}`;
}

export interface Counted {
  resistant: number;
  tested: number;
}

/** The counts that a sentence of a finding names in its order: they stand nowhere else in it. */
export function countsIn(sentence: string): Counted[] {
  return [...sentence.matchAll(/(none|[\d,]+) of ([\d,]+) populations? screened/g)].map(
    ([, resistant, tested]) => ({
      resistant: resistant === 'none' ? 0 : whole(resistant!),
      tested: whole(tested!),
    }),
  );
}

export function whole(digits: string): number {
  return Number(digits.replaceAll(',', ''));
}

import type { MatchedChange, Trend } from '@/lib/findings/types';
import { probability, ratio } from '@/lib/findings/wording';
import { count } from '../format';
import { weedName } from '../names';
import { countsIn, ofScreened, places, singular } from './wording';

/** Qué cambió entre dos temporadas en los mismos lugares. */
export function matchedChangeWords(change: MatchedChange): string {
  const { species, group, from, to, grain, sentence } = change;
  const about = `${weedName(species)}, grupo ${group}, de ${from} a ${to}`;
  if (change.places === 0) return `${about}.`;
  const [before, after] = countsIn(sentence);
  const counts =
    before && after
      ? `en ${places(change.places, grain)} evaluados en ambas temporadas, ${ofScreened(before)} en ${from}, y ${ofScreened(after)} en ${to}.`
      : `${places(change.places, grain)} evaluados en ambas temporadas.`;
  return `${about}: ${counts}${change.oddsRatio === null ? '' : ` ${changeVerdict(change)}`}`;
}

function changeVerdict({ oddsRatio, low, high, from, to, grain }: MatchedChange): string {
  const compared = `Comparando cada ${singular(grain)} consigo mismo, los momios de una población resistente en ${to} fueron ${ratio(oddsRatio!)} veces los de ${from}`;
  return `${compared} ${verdict(low!, high!, 'más de lo que daría el azar', 'menos de lo que daría el azar')}`;
}

/** Cómo fue la proporción a lo largo de las temporadas; sin la razón por la que no se puede decir. */
export function trendWords(found: Trend): string {
  const { species, group, from, to, oddsRatio } = found;
  const seasons = from === null ? '' : from === to ? `, ${from}` : `, de ${from} a ${to}`;
  const about = `${weedName(species)}, grupo ${group}${seasons}`;
  return [oddsRatio === null ? `${about}.` : `${about}: ${within(found)}`, ...series(found)].join(' ');
}

function within({ oddsRatio, low, high, grain, places: number }: Trend): string {
  const compared = `comparando cada ${singular(grain)} solo consigo mismo (${places(number, grain)}), los momios de una población resistente se multiplicaron por ${ratio(oddsRatio!)} con cada temporada`;
  return `${compared} ${verdict(low!, high!, 'una subida, más de lo que daría el azar', 'una bajada, más de lo que daría el azar')}`;
}

function verdict(low: number, high: number, rise: string, fall: string): string {
  const said = low > 1 ? rise : high < 1 ? fall : 'sin cambio claro';
  return `(intervalo del 95 %: ${ratio(low)} a ${ratio(high)}): ${said}.`;
}

function series({ series: told }: Trend): string[] {
  if (!told) return [];
  const { seasons, p, smallestP, slope, low, high } = told;
  if (smallestP === 1)
    return [`La proporción de la región fue la misma en las ${count(seasons)} temporadas.`];
  if (smallestP !== null && smallestP > 0.05)
    return [
      `Las ${seasons} temporadas de la proporción de la región son demasiado pocas para distinguir una tendencia del azar.`,
    ];
  const limits =
    low === null || high === null ? '' : `; intervalo del 95 %: ${points(low)} a ${points(high)}`;
  const said =
    p <= 0.05
      ? `${slope > 0 ? 'subió' : 'bajó'} en ${count(seasons)} temporadas más de lo que daría el azar`
      : `no mostró una subida ni una bajada constante en ${count(seasons)} temporadas`;
  return [
    `La proporción de la región en lo enviado ${said} (${points(slope)} puntos porcentuales por temporada${limits}; ${probability(p)}).`,
  ];
}

/** `+2.1`, `−0.4`. */
function points(slope: number): string {
  return `${slope >= 0 ? '+' : '−'}${(100 * slope).toFixed(1).replace('-', '')}`;
}

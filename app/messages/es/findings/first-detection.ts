import type { FirstDetection } from '@/lib/findings/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { weedName } from '../names';
import type { PlaceName } from './place-name';
import { countsIn, ofScreened, singular, whole } from './wording';

/** Qué dice un primer hallazgo, y qué no puede decir. */
export function firstDetection(detection: FirstDetection, nameOf: PlaceName): string {
  const { species, group, placeKind, place, period, how, lastClean, arrival, sentence } = detection;
  const [counted] = countsIn(sentence);
  const shown = / first shown as confirmed in /.test(sentence)
    ? 'mostrada por primera vez como confirmada'
    : 'confirmada por primera vez';
  const found = `${weedName(species)}, grupo ${group}: ${shown} en ${nameOf(placeKind, place)} (${periodLabel(period)}${counted ? `; ${ofScreened(counted)}` : ''}).`;
  const kind =
    placeKind === 'region'
      ? 'esta región'
      : placeKind === 'area'
        ? 'esta área'
        : `este ${singular(placeKind)}`;
  if (how === 'earlier record not shown')
    return `${found} Un recuento anterior de ${kind} no se muestra, así que desde aquí nadie puede decir si es nueva.`;
  if (how === 'found at first test')
    return `${found} Se halló en la primera prueba de ${kind}, así que pudo estar allí durante años.`;
  return `${found} Nueva tras un historial limpio: ${cleanWords(sentence, lastClean)}. Hasta donde eso alcanza, llegó después de ${arrival?.after} y a más tardar en ${arrival?.by}.`;
}

function cleanWords(sentence: string, lastClean: FirstDetection['lastClean']): string {
  const when = lastClean ? ` en ${periodLabel(lastClean)}` : '';
  const told = /none was found among ([\d,]+) screened in .*? unseen/.exec(sentence);
  const upTo = /room for up to (\d+) %/.exec(sentence);
  if (!told || !upTo) return `no se encontró ninguna${when}`;
  return `no se encontró ninguna entre ${whole(told[1]!).toLocaleString('es-US')} evaluadas${when} (tan pocas dejan sitio para hasta ${upTo[1]}\u00a0% sin ver)`;
}

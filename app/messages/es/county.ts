import { periodLabel } from '@/lib/vocabulary/terms';
import type { countyPage as english } from '../en/county';

/** La página de un condado, junto a sus textos anteriores. */
export const countyPage: typeof english = {
  glance: {
    confirmed: 'Confirmada aquí',
    'none confirmed': 'Evaluada, sin confirmar',
    'no public information': 'No público',
  },
  rest: (window) => `Semilla recogida en ${periodLabel(window)}.`,
  locator: (county) => `Dónde está ${county} entre sus vecinos`,
  nextDoor: 'Al lado',
  inDistrict: (district) => `su distrito, ${district}:`,
  beFirst:
    'Quien sospeche resistencia aquí puede ser el primero en enviar semilla: vea abajo en qué fijarse antes. De una primera muestra no se muestra nada hasta que haya suficientes otras a su lado.',
  allHidden: (county) =>
    `Se evaluó semilla de ${county}, y no se puede mostrar ninguno de sus números. Así es donde pocas muestras o pocos remitentes respaldan un número, donde un solo remitente dio la mayor parte, o donde podría deducirse un número vecino. Eso no dice nada de lo que se encontró. Lo que es público de su distrito está junto a cada grupo.`,
  confirmedBeside: 'De estos, confirmada en un lugar de al lado:',
  copy: 'Copiar este texto',
  copied: 'Copiado.',
  samplesTo: 'Adónde va la semilla:',
  regulated: 'Malezas reguladas:',
  contact: 'A quién preguntar, y a quién avisar de un error:',
};

import type { ReleaseHead } from '@/lib/release/types';
import { CASE_DEFINITIONS } from '@/lib/vocabulary/case-definition';

/** Solo las definiciones que vienen con el programa están traducidas, y solo mientras digan lo mismo. */
export function definitionWords({ version, words }: ReleaseHead['caseDefinition']): string | null {
  const bundled = CASE_DEFINITIONS.find((one) => one.version === version);
  return bundled?.words === words ? (WORDS[version] ?? null) : null;
}

const WORDS: Readonly<Record<string, string>> = {
  '2026-1':
    'Resistente: el 20 % o más de al menos 10 plantas sobrevivió a la dosis de la etiqueta o a una más alta. Algunas sobrevivientes: más que ninguna y menos del 20 %. Susceptible: ninguna sobrevivió a la dosis de la etiqueta o a una más baja. Molecular: resistente cuando alguna planta analizada lleva una mutación conocida.',
  '2026-1 exact':
    'Como 2026-1, pero un lote con sobrevivientes no es concluyente mientras el intervalo exacto del 95 % de su supervivencia contenga el 20 %.',
  'survivors 1 %':
    'Resistente: el 1 % o más de las plantas sobrevivió a la dosis de la etiqueta o a una más alta; aplicado al suelo, emergió el 20 % o más de lo que emergió sin tratar. Algunas sobrevivientes: más que ninguna y menos del 1 %. Susceptible: ninguna sobrevivió a la dosis de la etiqueta o a una más baja.',
  'survivors 40 %':
    'Resistente: el 40 % o más de las plantas sobrevivió a la dosis de la etiqueta o a una más alta. Algunas sobrevivientes: el 10 % o más y menos del 40 %. Susceptible: menos del 10 % sobrevivió a la dosis de la etiqueta o a una más baja.',
  'survivors 50 %':
    'Resistente: el 50 % o más de las plantas sobrevivió a la dosis de la etiqueta o a una más alta; aplicado al suelo, el número de plantas bajó menos del 90 % frente a lo no tratado. Algunas sobrevivientes: más que ninguna y menos del 50 %. Susceptible: ninguna.',
};

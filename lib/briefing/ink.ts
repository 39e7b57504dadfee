import { INK as FIGURES } from '@/lib/figures/looks';

/** Colours of documents: those of figures, and the band that marks a page, as on the site. */
export const INK = {
  ...FIGURES,
  rule: '#dcd8c8',
  accent: '#7a2454',
  band: '#f3e3c3',
  bandText: '#4a3508',
} as const;

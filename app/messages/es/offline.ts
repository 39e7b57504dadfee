import type { offline as english } from '../en/offline';

/** Sin señal. */
export const offline: typeof english = {
  heading: 'Sin señal',
  text: 'Desde aquí no se puede llegar al sitio en este momento. No se ha perdido nada: inténtelo otra vez cuando haya conexión.',
  kept: 'Páginas que se pueden leer sin señal',
  none: 'En este navegador todavía no se ha guardado la página de ningún condado. Se guarda cada una que usted abre.',
  others: 'Una página guardada dice cuándo se guardó: sus números pueden haber cambiado desde entonces.',
  note: 'Leída sin señal: esta página se guardó el {when}. Sus números pueden haber cambiado desde entonces.',
};

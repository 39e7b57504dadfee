import type { Language } from './languages';

/** The words of the one page that the browser makes by itself: apart, so that it need not load all others. */
export const FAILED: Record<Language, { heading: string; text: string; home: string }> = {
  en: {
    heading: 'This page could not be made',
    text: 'Something went wrong on our side. Try again; if it stays, the programme’s staff will want to know.',
    home: 'Go to the map',
  },
  es: {
    heading: 'Esta página no se pudo preparar',
    text: 'Algo falló de nuestro lado. Inténtelo otra vez; si sigue igual, avise al personal del programa.',
    home: 'Ir al mapa',
  },
};

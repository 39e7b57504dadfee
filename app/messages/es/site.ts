import type { foot as english } from '../en/site';

/** Lo que rodea a cada página. */
export const foot: typeof english = {
  label: 'Sobre los números',
  methods: 'Cómo se hacen los números',
  privacy: 'Qué se reserva y por qué',
  words: 'Palabras',
  releases: 'Publicaciones',
  api: 'Para programas',
  source:
    'Límites y nombres de los condados: Oficina del Censo de EE. UU. Los productores envían lo que sospechan, y que no se haya encontrado no significa que no exista.',
};

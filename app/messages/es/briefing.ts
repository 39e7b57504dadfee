import type { Texts } from '../en';

export const briefing: Texts['briefing'] = {
  heading: 'Un informe para una junta',
  intro:
    'Dos páginas en PDF para imprimir, o diapositivas con gráficos que se pueden editar: lo que una publicación muestra de una maleza, con mapas, tendencias, las preguntas que hacen las juntas y las advertencias. Todo es público. Los documentos están en inglés.',
  weed: 'Maleza',
  groups: (most) => `Grupos de herbicidas, ${most} como máximo`,
  seasons: 'Temporadas',
  districts: 'Distritos; ninguno es toda la región',
  pdf: 'Hacer el PDF',
  pptx: 'Hacer las diapositivas',
  staff:
    'Los números por financiador, los días hasta un resultado y dónde buscar después son del personal del programa, que puede mostrarlos a una junta.',
  link: 'Un informe para una junta, en PDF o diapositivas',
  handout: 'Este condado en una página, para imprimir (PDF)',
};

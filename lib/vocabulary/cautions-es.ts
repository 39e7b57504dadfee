/** `CAUTIONS` in Spanish, sentence by sentence. */
export const CAUTIONS_ES: readonly string[] = [
  'Los resultados describen la semilla recibida, cultivada en invernadero y tratada con las dosis indicadas. En el campo la respuesta puede ser otra.',
  'Que no se haya encontrado no significa que no exista, y un lugar sin pruebas es un lugar sin información. Una prueba molecular que no encuentra nada solo habla de las mutaciones que busca.',
  'Los productores envían lo que sospechan. Salvo que el diseño diga «al azar», son recuentos de muestras enviadas y no la proporción de todos los campos; una tendencia en los envíos no es una tendencia en la resistencia.',
  'Solo se habla de los ingredientes activos que se probaron. No deduzca que otro ingrediente activo del mismo grupo funciona o falla.',
  'El grupo 0 reúne herbicidas de sitio de acción desconocido: dos de ellos pueden no tener nada en común. Los grupos llevan los números armonizados de 2020; las hojas más antiguas se tradujeron.',
  'Los recuentos pequeños se reservan para proteger a los productores. Un lugar reservado se ve igual, se haya encontrado allí lo que se haya encontrado.',
  'Nada aquí recomienda un producto ni una dosis. Lea y siga la etiqueta, la normativa local y las recomendaciones de su servicio de extensión; los productos de uso restringido son para aplicadores certificados o personas bajo su supervisión. Las dosis por encima de la etiqueta son para el invernadero, nunca para el campo.',
];

export const SIMULATED_NOTICE_ES =
  'Datos simulados: los límites y nombres de los condados son reales, todo lo demás es inventado. No dicen nada de ningún campo, finca ni condado real.';

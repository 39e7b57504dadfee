import type { ArticleSection, PolicyNumbers } from '../article';
import type { privacyPage as english } from '../en/privacy';

/** Lo que rodea a las secciones. */
export const privacyPage: typeof english = {
  heading: 'Qué se reserva y por qué',
  intro: (version) =>
    `Las reglas con que se reservan los recuentos pequeños, en palabras sencillas. Esta es la versión ${version} de la política; cada publicación nombra aquella con que se preparó.`,
  contents: 'En esta página',
  file: 'La misma política como archivo para programas',
};

export function privacySections(policy: PolicyNumbers): readonly ArticleSection[] {
  return [
    {
      id: 'who',
      heading: 'A quién se protege',
      blocks: [
        'A la explotación que envió semilla, en todas sus muestras, campos y años. Los vecinos saben quién envía semilla, así que se supone que quien lee sabe quién lo hizo, conoce sus propios resultados, guarda cada archivo de cada publicación y sabe hacer cuentas con una computadora.',
        'Se prometen dos cosas. Nadie aprende de un número reservado cuál fue el resultado de otra explotación, ni que todas o ninguna de unas pocas son resistentes. Y lo que se puede mostrar sin riesgo se muestra: un mapa en blanco no protege ningún campo y no ayuda a nadie.',
        'Nombres, direcciones, campos y puntos del mapa nunca están en una publicación. Una muestra se conoce por un código opaco dentro del programa, y por nada fuera de él.',
      ],
    },
    {
      id: 'what',
      heading: 'Cuándo se reservan los números de un lugar',
      blocks: [
        'Todos los números de un lugar, temporada o grupo de temporadas, maleza y grupo se reservan juntos cuando ocurre algo de esto:',
        [
          `se evaluaron menos de ${policy.minimumTested} poblaciones;`,
          `las enviaron menos de ${policy.minimumOperations} explotaciones;`,
          'una sola explotación envió una parte demasiado grande (que hay un límite es público; cuál es, no, porque hablaría del mayor remitente);',
          `todas, todas menos una o ninguna resultaron resistentes, y las enviaron menos de ${policy.unanimousOperations} explotaciones;`,
          'de él podría deducirse un número reservado, restándolo de un total o por un camino más largo.',
        ],
        'Que en un lugar no se evaluó nada es público: no delata a nadie.',
        'Antes de publicar, una auditoría hace el papel de quien más curiosidad tenga: reúne todos los números de todas las publicaciones en un solo sistema y busca los reservados que salgan exactos o casi, y pregunta, por cada remitente con una muestra en una celda reservada, qué podría aprender de otros. Con uno solo no hay publicación.',
      ],
    },
    {
      id: 'withheld',
      heading: 'Qué significa un lugar reservado',
      blocks: [
        'Que algo se evaluó, y que mostrarlo podría delatar a alguien. Nada más. Los lugares reservados se ven iguales, se haya encontrado allí lo que se haya encontrado, en el mapa, las tablas, los archivos y las respuestas a programas; no tienen número, ni proporción, ni tono, ni puesto en un orden por números.',
        'Lo que hay en su lugar: el área, el distrito, el estado y la región que contienen el lugar. El número de remitentes no se publica nunca, ni siquiera de modo aproximado.',
      ],
    },
    {
      id: 'areas',
      heading: 'Por qué hay condados que se cuentan juntos',
      blocks: [
        `Las temporadas cerradas se muestran en grupos de ${policy.windowLength}, porque una temporada de un condado casi siempre es demasiado poco. Donde un grupo de temporadas sigue siendo demasiado poco, los condados contiguos de un distrito se unen en áreas: tantas como se puedan mostrar, y tan pequeñas como se pueda.`,
        'Quién se une con quién depende de dónde se evaluó y nunca de lo que se encontró, de modo que las áreas por sí mismas no dicen nada. Un condado con muestras suficientes también puede unirse, en atención a un vecino. Un área conserva sus condados para siempre; todos los grupos de herbicidas de una maleza tienen las mismas áreas.',
        'Las temporadas sueltas se muestran para la región y sus estados, y para los distritos donde se pueden mostrar suficientes. Una temporada en curso se muestra solo para la región y sus estados, y va marcada.',
      ],
    },
    {
      id: 'unanimous',
      heading: 'Qué dice un «ninguna» o un «todas» publicado',
      blocks: [
        `Donde un número se publica y ninguna de n poblaciones resultó resistente, se sabe que cada remitente envió semilla limpia; donde lo fueron todas, que cada uno envió semilla resistente. La política lo acepta, y pide al menos ${policy.unanimousOperations} explotaciones detrás de un número así. Quien no lo acepte para una muestra puede dejarla fuera de los números públicos.`,
      ],
    },
    {
      id: 'late',
      heading: 'Resultados tardíos y correcciones',
      blocks: [
        'Las publicaciones se pueden comparar, y una diferencia de uno entre dos de ellas sería esa única muestra. Por eso los resultados tardíos, las correcciones y los consentimientos retirados de temporadas cerradas esperan hasta que lo que cambia en cada número se pueda mostrar por sí mismo, frente a todas las publicaciones anteriores. Que algo espera lo sabe solo el personal del programa.',
        'Lo que se mostró sigue mostrado y lo que se reservó sigue reservado, salvo que la auditoría de todas las publicaciones juntas encuentre otra vía segura.',
      ],
    },
    {
      id: 'consent',
      heading: 'Consentimiento',
      blocks: [
        'Una muestra entra en los números públicos solo si quien la envió lo aceptó; sin respuesta es no. Quien aceptó puede retirarlo: desde la próxima publicación que pueda dejar fuera la muestra sin riesgo, queda fuera.',
        'El resultado propio llega primero a quien envió la muestra, y una temporada se cierra solo después.',
      ],
    },
    {
      id: 'copies',
      heading: 'Lo que no se puede deshacer',
      blocks: [
        'Una publicación retirada ya no se ofrece aquí, y su número queda con la razón. Las copias que otros hayan hecho no se pueden recuperar: ni un retiro ni un cambio de consentimiento las alcanza.',
        'El programa guarda lo que alguna vez se mostró y se reservó, y las muestras de que se hizo, para poder auditar las publicaciones posteriores junto con las anteriores. A ese registro solo se le añade, y no es público.',
        'A los números no se les añade ruido: «confirmada aquí» se dice en sentido literal, y las sumas cuadran.',
      ],
    },
    {
      id: 'site',
      heading: 'Este sitio',
      blocks: [
        'No pone cookies, no cuenta visitas y no pide nada a otros sitios. Un navegador que lo permita guarda las páginas de los condados que usted abrió, para leerlas sin señal; quedan en su navegador, y se quitan al borrar sus datos.',
      ],
    },
  ];
}

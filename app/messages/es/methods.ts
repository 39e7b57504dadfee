import type { ArticleSection } from '../article';
import type { methodsPage as english } from '../en/methods';

/** Lo que rodea a las secciones. */
export const methodsPage: typeof english = {
  heading: 'Cómo se hacen los números',
  intro:
    'Esta página dice qué se cuenta, qué se calcula con ello y cuánto puede errar. Lo que se reserva, y por qué, tiene su propia página.',
  contents: 'En esta página',
  definition: 'La definición de caso de esta publicación',
  references: 'Obras en que esto se apoya',
  codeBook: 'Libro de códigos de la publicación más reciente: qué significa cada columna de las tablas',
  privacy: 'Qué se reserva y por qué',
  words: 'Palabras que se usan aquí',
};

export const methodsSections: readonly ArticleSection[] = [
  {
    id: 'counted',
    heading: 'Qué se cuenta',
    blocks: [
      'Una población es una maleza de un campo en una temporada. Productores, asesores y educadores envían su semilla; un invernadero la cultiva y la trata junto a plantas que se sabe que son susceptibles y plantas que se sabe que son resistentes. Si las susceptibles viven o las no tratadas mueren, toda la tanda queda anulada.',
      'Una población cuenta una vez por grupo de herbicidas, por muchas veces que se evalúe, y es resistente a un grupo cuando lo es a algún ingrediente activo probado de él. La temporada es el año en que se recogió la semilla, no el año en que se trató.',
      'Se guardan cuatro números: recibidas, evaluables (semilla que creció), evaluadas y resistentes. Las recibidas y las evaluables son públicas para la región y sus estados. Condados, áreas y distritos muestran las pruebas de planta entera de todos los diseños juntos; las pruebas por suelo, las de ADN y cada diseño por separado se muestran por estado.',
      'La mayoría de las muestras se envía porque falló el control. Una proporción de ellas es una proporción de lo enviado y no de todos los campos. Donde más se evalúa, más se encuentra: por eso, junto a cada recuento de hallazgos en estas páginas está el número evaluado.',
    ],
  },
  {
    id: 'definition',
    heading: 'Cuándo una población es resistente',
    blocks: [
      'Los programas trazan la línea en lugares distintos, así que la línea tiene una versión y está junto a las cifras que produjo. Las plantas se cuentan según vivieron o murieron, y los recuentos se guardan, de modo que a las mismas bandejas se les puede aplicar otra definición. Una población cerca de la línea puede caer del otro lado si se cultiva otra vez: de 40 plantas de las que vivió el 20 %, el intervalo del 95 % de la proporción va de 11 a 35 %.',
      'El primer resultado resistente de una maleza y grupo en su estado espera una segunda tanda, y ninguna publicación lo muestra antes de que una persona lo haya confirmado.',
    ],
  },
  {
    id: 'intervals',
    heading: 'Las proporciones y sus intervalos',
    blocks: [
      'Junto a una proporción está su intervalo del 95 % según Wilson. Dice cuán lejos podría estar la proporción de la de todas las poblaciones de la misma clase, enviadas del mismo modo. No dice nada de cómo se eligieron las muestras.',
      {
        formula: 'wilson',
        where: 'p: proporción de las n poblaciones evaluadas que resultó resistente; z = 1.96.',
      },
      'Solo hay porcentajes donde ambos recuentos son públicos.',
    ],
  },
  {
    id: 'reassurance',
    heading: 'Donde no se encontró ninguna',
    blocks: [
      'Que no se haya encontrado no significa que no exista. Con ninguna población resistente entre n evaluadas, cualquier proporción hasta u habría permitido aún, en un caso de veinte, que todas salieran limpias. La página de un condado da u, y cuántas poblaciones limpias más lo llevarían a 10 % o menos.',
      {
        formula: 'reassurance',
        where:
          'u: límite unilateral del 95 % (exacto). 29 poblaciones limpias lo llevan por debajo de 10 %. Toma las poblaciones como independientes: siete de una finca dicen menos que siete de siete.',
      },
    ],
  },
  {
    id: 'clustering',
    heading: '¿Están juntas las poblaciones resistentes?',
    blocks: [
      'Cada maleza, grupo y grupo de temporadas es un mapa de condados y áreas publicados; donde menos de 20 de ellos tienen un vecino publicado, de distritos (al menos 10). Se le hacen tres preguntas, y cada una tiene en cuenta cuántas se evaluaron en cada lugar.',
      'Primera: ¿se parecen los vecinos? Las proporciones se hacen comparables entre lugares donde se evaluaron pocas y muchas, y se suma el parecido de los vecinos (índice de Moran). Su azar sale de órdenes aleatorios de los valores sobre los lugares.',
      {
        formula: 'standardised',
        where:
          'r de n resultaron resistentes en el lugar i; b: proporción de todo el mapa; a: cuánto difieren los lugares más allá del azar de contar.',
      },
      {
        formula: 'moran',
        where: 'La raya: media de los vecinos de un lugar, cada z menos la media de todas.',
      },
      {
        formula: 'permutation',
        where: 'M de R órdenes aleatorios alcanzan el índice o más. Por eso p nunca es 0.',
      },
      'Segunda: ¿tiene un lugar junto con sus vecinos más poblaciones resistentes, o menos, de las que daría un sorteo sin mirar el lugar? Es exacta, y tiene en cuenta el número de lugares (tasa de descubrimientos falsos).',
      {
        formula: 'around',
        where:
          'K de todas las N poblaciones son resistentes; n de ellas están en el lugar y sus vecinos, y x de estas son resistentes. C(n, k): de cuántas maneras se pueden elegir k de n.',
      },
      'Tercera: de todos los círculos de hasta la mitad de lo evaluado, ¿cuál tiene más? El círculo más marcado se compara con los más marcados de mapas en que el mismo número de poblaciones resistentes se repartió al azar.',
      {
        formula: 'scan',
        where:
          'x de n resistentes en el círculo, K de N en el mapa; el círculo con la mayor L entre los que tienen más de lo esperado.',
      },
      {
        formula: 'scanPart',
        where: 'Cuán verosímiles son x de n con su propia proporción, como logaritmo; 0 ln 0 es 0.',
      },
      'El veredicto es uno: la menor p de las tres, por tres. Si es de 5 % o menos, las poblaciones «están juntas», y solo entonces se dice dónde. Si no, la página dice qué tamaño de agrupamiento habría mostrado la misma evaluación cuatro de cada cinco veces, porque una evaluación escasa no muestra nada.',
      {
        formula: 'verdict',
        where: 'Con dos preguntas, donde no se puede trazar ningún círculo: por dos.',
      },
    ],
  },
  {
    id: 'change',
    heading: 'Qué cambió desde la temporada anterior',
    blocks: [
      'Los lugares nuevos y el mayor número de muestras parecen un aumento. Por eso cada distrito se compara solo consigo mismo: las dos últimas temporadas cerradas de los distritos con números públicos en ambas (de los estados, donde menos de dos distritos los tienen). Sus razones de momios se reúnen según Mantel y Haenszel, con el intervalo de Robins, Breslow y Greenland.',
      {
        formula: 'matched',
        where:
          'En el distrito i: a poblaciones resistentes y b de otras en la temporada posterior, c y d en la anterior; N: las cuatro juntas.',
      },
      'Un intervalo que contiene 1 se llama «sin cambio claro». Un condado nunca se compara consigo mismo de una temporada a otra: habría demasiado pocas muestras detrás.',
    ],
  },
  {
    id: 'trend',
    heading: 'La tendencia a lo largo de las temporadas',
    blocks: [
      'Hay dos respuestas, una al lado de la otra. Una compara cada lugar consigo mismo: un nivel propio para cada lugar, una pendiente para todos. Donde hay al menos diez lugares, su intervalo tiene en cuenta que las pendientes difieran entre ellos.',
      {
        formula: 'trend',
        where:
          'π: probabilidad de que una población del lugar i en la temporada t sea resistente; α: nivel del lugar, que se elimina al condicionar; β: cambio del logaritmo de los momios por temporada.',
      },
      'La otra toma las proporciones de la región como se enviaron: ¿sube o baja la serie de manera constante (Mann–Kendall, exacta), y cuánto por temporada (Theil–Sen)? A esta sí la mueve una evaluación desigual.',
      {
        formula: 'series',
        where:
          'y: proporción en la temporada t; S cuenta subidas menos bajadas entre todos los pares de temporadas; m: la pendiente mediana.',
      },
    ],
  },
  {
    id: 'arrival',
    heading: 'Primeros hallazgos y llegada',
    blocks: [
      'Solo un lugar que antes se evaluó limpio y después muestra resistencia habla de una llegada, y aun así solo hasta donde alcanza su recuento limpio. Un lugar donde se halló en la primera prueba pudo tenerla durante años; donde un recuento anterior no es público, desde aquí nadie puede decir si el hallazgo es nuevo. Las páginas distinguen los tres casos.',
    ],
  },
  {
    id: 'spread',
    heading: 'Qué tan rápido avanza',
    blocks: [
      'Solo se da una velocidad donde un frente explica los hallazgos: algo que empieza en un punto y llega a cada lugar más tarde cuanto más lejos está.',
      {
        formula: 'front',
        where:
          't: temporada en que se alcanza el lugar i; d: su distancia del comienzo; v: velocidad, estimada junto con el punto, el comienzo y cómo sube la proporción detrás del frente.',
      },
      'Las publicaciones la dan a partir de los distritos, temporada por temporada. Se niega donde demasiado pocos lugares se hallaron nuevos tras un historial limpio, donde un frente que no se mueve explica lo mismo, donde los tiempos propios de los distritos dicen mucho más que el frente, y donde el intervalo de 1 / v contiene 0. El intervalo se ensancha según la dispersión de los lugares. Es una velocidad entre lugares evaluados, no la de la semilla de campo a campo.',
    ],
  },
  {
    id: 'several',
    heading: 'Varios grupos en una población',
    blocks: [
      'Una población se cuenta como resistente a k grupos por lo menos entre las que se evaluaron frente a k por lo menos: una que se evaluó frente a menos falta, no está limpia.',
      {
        formula: 'several',
        where: 'R: grupos a los que una población es resistente; T: grupos frente a los que se evaluó.',
      },
      'Habla de poblaciones. Una población puede tener plantas de dos clases, cada una resistente a un grupo.',
    ],
  },
  {
    id: 'public',
    heading: 'De qué se hacen los hallazgos',
    blocks: [
      'Cada hallazgo de estas páginas se calcula con las celdas publicadas de su publicación y con nada más, de modo que ninguno puede revelar lo reservado. La semilla y el número de órdenes aleatorios están en la publicación, y una orden del código fuente del proyecto calcula otra vez todos los hallazgos con los archivos descargados y nombra lo que difiere.',
    ],
  },
  {
    id: 'limits',
    heading: 'Cuánto puede errar',
    blocks: [
      'Los métodos se probaron en miles de mapas y programas simulados con los contornos reales de cuatro estados. Los documentos con todas las cifras están en el código fuente del proyecto; esto es lo que importa a quien lee:',
      [
        'Donde no hay nada, el veredicto sobre agrupamiento habla en 2 a 4 de cada 100 mapas.',
        'Donde la mitad de las poblaciones a menos de 100 km de un lugar es resistente y una décima parte en el resto, habla en 37 a 86 de cada 100, según cuánto se evaluó y dónde. «Ninguna señal» tras una evaluación escasa dice poco.',
        'Una velocidad plantada está dentro de su intervalo en unos 94 de cada 100 casos donde el modelo se ajusta, y en no más de 64 donde un frente avanza de modo desigual hacia distintos lados.',
        'A un agrupamiento que no se mueve se le da una velocidad de unos pocos kilómetros, con un intervalo ancho, en cerca de uno de cada seis casos.',
        'Un frente que empezó en varios lugares a la vez, o a lo largo de una línea, tiene la velocidad del comienzo más cercano.',
        'Los vecinos terminan en el límite de la región: un condado del borde tiene menos.',
        'Las pruebas de ADN solo ven las mutaciones que buscan; se cuentan aparte de las pruebas de planta entera.',
        'Las muestras de una misma finca se parecen. Los intervalos toman las poblaciones como independientes y son demasiado estrechos donde pocos remitentes respaldan muchas.',
      ],
    ],
  },
];

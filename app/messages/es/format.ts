import { formatOf } from '../format';

export const { count, percent, interval, day, many, list, size } = formatOf(
  'es-US',
  'y',
  (left) => `${left} más`,
);

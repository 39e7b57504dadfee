import { expect, it } from 'vitest';
import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';

it('adjusts the 15 p of the thrombolysis example as published: 4 finds at 0.05', () => {
  // Source: Benjamini & Hochberg 1995, JRSS B 57:289–300, section 4 (p typed from memory of the paper);
  // adjusted p by R 4.2.2 p.adjust(method = 'BH').
  const p = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528,
    0.759, 1,
  ];
  const adjusted = [
    0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571428571429, 0.0638571428571429, 0.0645, 0.0765, 0.486,
    0.581181818181818, 0.714875, 0.753230769230769, 0.813214285714286, 1,
  ];
  const found = benjaminiHochberg(p);
  adjusted.forEach((value, i) => {
    expect(found[i]).toBeCloseTo(value, 12);
  });
  expect(found.filter((value) => value <= 0.05)).toHaveLength(4);
});

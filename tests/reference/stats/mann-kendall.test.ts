import { describe, expect, it } from 'vitest';
import { mannKendall } from '@/lib/stats/trend/mann-kendall';
import { theilSen } from '@/lib/stats/trend/theil-sen';

// Values: R 4.2.2 (variance corrected for ties, continuity correction, checked against cor.test(method = 'kendall');
// exact p by cor.test(exact = TRUE); Sen's limits by linear interpolation of the ranks, Gilbert 1987).
describe('Mann–Kendall and Theil–Sen', () => {
  it('have the values of the Nile at Aswan, 1871–1970', () => {
    // Data: R's Nile (Cobb 1978).
    const found = mannKendall(NILE);
    expect(found).toMatchObject({ values: 100, s: -1387, method: 'normal', smallestP: null });
    expect(found.variance).toBeCloseTo(112728.333333333, 8);
    expect(found.z).toBeCloseTo(-4.1280665228441, 10);
    expect(found.p).toBeCloseTo(3.65826292166433e-5, 14);
    expect(found.tau).toBeCloseTo(-0.280741334724613, 12);
    const line = theilSen(
      NILE.map((_, i) => 1871 + i),
      NILE,
    );
    expect(line.slope).toBeCloseTo(-2.6, 12);
    expect(line.intercept).toBeCloseTo(5890.3, 8);
    expect(line.low).toBeCloseTo(-3.62792647784487, 8);
    expect(line.high).toBeCloseTo(-1.42844437594575, 8);
  });

  it('have the exact p and the limits of eight invented shares', () => {
    const shares = [0.05, 0.08, 0.06, 0.12, 0.15, 0.14, 0.21, 0.25];
    const found = mannKendall(shares);
    expect(found).toMatchObject({ values: 8, s: 24, method: 'exact' });
    expect(found.variance).toBeCloseTo(65.3333333333333, 10);
    expect(found.p).toBeCloseTo(0.00173611111111116, 14);
    expect(found.tau).toBeCloseTo(0.857142857142857, 14);
    expect(mannKendall(shares, 'normal').z).toBeCloseTo(2.84551204100601, 12);
    expect(mannKendall(shares, 'normal').p).toBeCloseTo(0.00443400830310065, 12);
    const line = theilSen([2015, 2016, 2017, 2018, 2019, 2020, 2021, 2022], shares);
    expect(line.slope).toBeCloseTo(0.028452380952381, 12);
    expect(line.intercept).toBeCloseTo(-57.2938095238095, 9);
    expect(line.low).toBeCloseTo(0.0181577997229336, 12);
    expect(line.high).toBeCloseTo(0.0379605500692666, 12);
  });
});

const NILE = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180, 799, 958,
  1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701, 916, 692, 1020,
  1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862, 698, 845, 744, 796, 1040,
  759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812, 742, 801, 1040, 860, 874, 848, 890,
  744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906, 901, 1170, 912, 746, 919, 718, 714, 740,
];

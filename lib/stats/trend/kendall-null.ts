/**
 * Chances of each number of falls (pairs in which the later value is the smaller) when all orders of the values are
 * equally likely, for values with ties: the group of each tied value is dealt among the larger ones already placed.
 *
 * @param ties how often each different value occurs, in any order
 * @returns entry f: the chance of f falls, 0 … the number of untied pairs
 * @source the number of inversions of a multiset has the Gaussian multinomial coefficients for its generating function
 *   (MacMahon 1916, Combinatory Analysis, from memory); each factor by the recursion of Mann & Whitney 1947, Annals of
 *   Mathematical Statistics 18:50–60
 * @cost O(n⁴) for n values at worst, O(n³) without ties
 */
export function kendallNull(ties: readonly number[]): Float64Array {
  let falls: Float64Array = Float64Array.of(1);
  let placed = 0;
  for (const size of ties) {
    falls = convolve(falls, insertions(placed, size));
    placed += size;
  }
  return falls;
}

/** Chances of the number of pairs out of order between `before` values and `size` others, well mixed. */
function insertions(before: number, size: number): Float64Array {
  let row = Array.from({ length: before + 1 }, () => Float64Array.of(1));
  for (let b = 1; b <= size; b += 1) {
    const next = [Float64Array.of(1)];
    for (let a = 1; a <= before; a += 1) {
      const chances = new Float64Array(a * b + 1);
      // The last of all is one of the `a`, behind all `b`, or one of the `b`.
      next[a - 1]!.forEach((chance, u) => {
        chances[u + b]! += (chance * a) / (a + b);
      });
      row[a]!.forEach((chance, u) => {
        chances[u]! += (chance * b) / (a + b);
      });
      next.push(chances);
    }
    row = next;
  }
  return row[before]!;
}

function convolve(a: Float64Array, b: Float64Array): Float64Array {
  const product = new Float64Array(a.length + b.length - 1);
  for (let i = 0; i < a.length; i += 1) {
    for (let j = 0; j < b.length; j += 1) product[i + j]! += a[i]! * b[j]!;
  }
  return product;
}

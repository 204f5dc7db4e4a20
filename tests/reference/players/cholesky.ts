/** Lower triangle L with L Lᵀ the symmetric positive definite matrix whose lower triangle is given row by row (any text on linear algebra). */
export function choleskyOf(matrix: Float64Array, size: number): Float64Array {
  const lower = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i * size + j]!;
      for (let k = 0; k < j; k++) rest -= lower[i * size + k]! * lower[j * size + k]!;
      if (i === j && !(rest > 0)) throw new RangeError(`the matrix is not positive definite at ${i}`);
      lower[i * size + j] = i === j ? Math.sqrt(rest) : rest / lower[j * size + j]!;
    }
  }
  return lower;
}

/** The x with L Lᵀ x = right. */
export function solveWith(lower: Float64Array, right: Float64Array): Float64Array {
  const size = right.length;
  const solved = Float64Array.from(right);
  for (let i = 0; i < size; i++) {
    for (let k = 0; k < i; k++) solved[i]! -= lower[i * size + k]! * solved[k]!;
    solved[i]! /= lower[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    for (let k = i + 1; k < size; k++) solved[i]! -= lower[k * size + i]! * solved[k]!;
    solved[i]! /= lower[i * size + i]!;
  }
  return solved;
}

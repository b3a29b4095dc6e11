/**
 * Symmetric positive definite systems by the factorization A = L Lᵀ (Cholesky; Golub and Van Loan, Matrix Computations,
 * section 4.2, from memory).
 */
export type Matrix = readonly Float64Array[]

/** The lower triangle L; rows of A are used up to the diagonal. */
export function factorized(a: Matrix): Matrix {
  const l = a.map((row) => Float64Array.from(row))
  l.forEach((row, i) => {
    for (let j = 0; j <= i; j += 1) {
      const other = l[j] ?? row
      let sum = row[j] ?? 0
      for (let k = 0; k < j; k += 1) sum -= (row[k] ?? 0) * (other[k] ?? 0)
      row[j] = i === j ? Math.sqrt(sum) : sum / (other[j] ?? 1)
    }
  })
  return l
}

/** x with L x = b. The quadratic form bᵀ A⁻¹ b is its squared length. */
export function forward(l: Matrix, b: Float64Array): Float64Array {
  const x = Float64Array.from(b)
  l.forEach((row, i) => {
    let sum = x[i] ?? 0
    for (let k = 0; k < i; k += 1) sum -= (row[k] ?? 0) * (x[k] ?? 0)
    x[i] = sum / (row[i] ?? 1)
  })
  return x
}

/** x with A x = b. */
export function solved(l: Matrix, b: Float64Array): Float64Array {
  const x = forward(l, b)
  for (let i = l.length - 1; i >= 0; i -= 1) {
    let sum = x[i] ?? 0
    for (let k = i + 1; k < l.length; k += 1) sum -= (l[k]?.[i] ?? 0) * (x[k] ?? 0)
    x[i] = sum / (l[i]?.[i] ?? 1)
  }
  return x
}

/** The diagonal of A⁻¹. */
export function inverseDiagonal(l: Matrix): Float64Array {
  const column = new Float64Array(l.length)
  return Float64Array.from(l, (own, k) => {
    column[k] = 1 / (own[k] ?? 1)
    let squares = (column[k] ?? 0) ** 2
    for (let i = k + 1; i < l.length; i += 1) {
      const row = l[i] ?? own
      let sum = 0
      for (let j = k; j < i; j += 1) sum -= (row[j] ?? 0) * (column[j] ?? 0)
      column[i] = sum / (row[i] ?? 1)
      squares += (column[i] ?? 0) ** 2
    }
    return squares
  })
}

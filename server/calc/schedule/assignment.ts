/**
 * The least sum of costs when each row gets a column of its own; as many columns as rows. Costs are whole numbers.
 *
 * Source: the Hungarian method (Kuhn 1955) with shortest augmenting paths (Jonker and Volgenant 1987), from memory.
 *
 * @example leastAssignment([[4, 1, 3], [2, 0, 5], [3, 2, 2]]) // 5
 */
export function leastAssignment(costs: readonly (readonly number[])[]): number {
  const count = costs.length
  const ofRow = new Float64Array(count + 1)
  const ofColumn = new Float64Array(count + 1)
  const rowOf = new Int32Array(count + 1)
  for (let row = 1; row <= count; row += 1) {
    const least = new Float64Array(count + 1).fill(Infinity)
    const from = new Int32Array(count + 1)
    const isUsed = new Uint8Array(count + 1)
    rowOf[0] = row
    let column = 0
    while (rowOf[column] !== 0) {
      isUsed[column] = 1
      let next = 0
      let step = Infinity
      for (let one = 1; one <= count; one += 1) {
        if (isUsed[one] === 1) continue
        const reduced = costs[rowOf[column]! - 1]![one - 1]! - ofRow[rowOf[column]!]! - ofColumn[one]!
        if (reduced < least[one]!) {
          least[one] = reduced
          from[one] = column
        }
        if (least[one]! < step) {
          step = least[one]!
          next = one
        }
      }
      for (let one = 0; one <= count; one += 1) {
        if (isUsed[one] === 1) {
          ofRow[rowOf[one]!]! += step
          ofColumn[one]! -= step
        } else least[one]! -= step
      }
      column = next
    }
    while (column !== 0) {
      rowOf[column] = rowOf[from[column]!]!
      column = from[column]!
    }
  }
  let sum = 0
  for (let column = 1; column <= count; column += 1) sum += costs[rowOf[column]! - 1]![column - 1]!
  return sum
}

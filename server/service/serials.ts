/** The serial numbers of a line, one a row; a comma or semicolon between them does as well. */
export function listSerials(text: string): string[] {
  return text.split(/[\n,;]/).map((one) => one.trim()).filter((one) => one !== '')
}

/** The same text with one number in the place of another. Throws where the first does not stand there. */
export function replaceSerial(text: string, from: string, to: string): string {
  if (!listSerials(text).includes(from)) throw new Error(`${from} does not stand there`)
  let isDone = false
  return text.replaceAll(/[^\n,;]+/g, (part) => {
    if (isDone || part.trim() !== from) return part
    isDone = true
    return part.replace(from, () => to)
  })
}

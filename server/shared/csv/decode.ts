export type Encoding = 'UTF-8' | 'UTF-16' | 'Windows-1252'

export interface Decoded {
  readonly text: string
  readonly encoding: Encoding
}

// 0x80 to 0x9F by the WHATWG index of windows-1252; the runtime's own decoder leaves them control signs.
const FROM_0X80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ'

/** The text of an uploaded file: UTF-8 where it is valid, UTF-16 by its mark, else Windows-1252. */
export function decodeText(bytes: Uint8Array): Decoded {
  const mark = `${bytes[0] ?? 0} ${bytes[1] ?? 0}`
  if (mark === '255 254') return { text: new TextDecoder('utf-16le').decode(bytes), encoding: 'UTF-16' }
  if (mark === '254 255') return { text: new TextDecoder('utf-16le').decode(Buffer.from(bytes).subarray(0, bytes.length & ~1).swap16()), encoding: 'UTF-16' }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'UTF-8' }
  } catch (error) {
    if (!(error instanceof TypeError)) throw error
    return { text: fromWindows1252(bytes), encoding: 'Windows-1252' }
  }
}

function fromWindows1252(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('latin1').replace(/[\u0080-\u009f]/g, (sign) => FROM_0X80.charAt(sign.charCodeAt(0) - 0x80))
}

/** Whether a file is no text at all, as a workbook. */
export const isWorkbook = (bytes: Uint8Array): boolean => bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4

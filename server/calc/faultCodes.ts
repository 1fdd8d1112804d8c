const AREAS: Readonly<Record<string, string>> = { P: 'powertrain', C: 'chassis', B: 'body', U: 'network' }

export interface FaultCodeReading {
  /** As the standard writes it, P0420; as it was typed where it is no code of the standard's form. */
  readonly code: string
  readonly isStandardForm: boolean
  /** What the code says of itself, as "powertrain, by the standard"; empty where it says nothing. */
  readonly says: string
}

/**
 * A fault code as people type it, without units: a letter for the area, a digit 0 to 3, three hexadecimal
 * digits. A digit 0 is defined by the standard, 1 by the vehicle maker; 2 and 3 differ by area. Never throws:
 * anything else comes back as typed. Source: ISO 15031-6 and SAE J2012, form of the code, from memory.
 *
 * @example readFaultCode('p 0420') // { code: 'P0420', isStandardForm: true, says: 'powertrain, by the standard' }
 */
export function readFaultCode(typed: string): FaultCodeReading {
  const code = typed.toUpperCase().replace(/[\s-]/g, '')
  const match = /^([PCBU])([0-3])[0-9A-F]{3}$/.exec(code)
  if (!match) return { code: typed.trim(), isStandardForm: false, says: '' }
  const [, area = '', by = ''] = match
  return { code, isStandardForm: true, says: `${AREAS[area] ?? ''}${BY[by] ?? ''}` }
}

const BY: Readonly<Record<string, string>> = { 0: ', by the standard', 1: ', by the vehicle maker' }

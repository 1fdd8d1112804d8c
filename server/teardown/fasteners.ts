import type { FastenerShown } from '../../web/teardown/teardownData.ts'
import type { FactoryPart, Fastener } from '../calc/removal/factoryParts.ts'
import { toFastenerText, toSheetTorque } from '../calc/removal/fastenerText.ts'
import { writeTorque } from '../calc/figures.ts'

/** The torque of a fastener with its source; what nobody knows is looked up, never left empty and never computed. */
export function torqueInWords(fastener: Fastener): string {
  const torque = toSheetTorque(fastener)
  if (torque === 'none applies') return 'no torque'
  if (typeof torque === 'string') return `torque: ${torque}`
  return `${writeTorque(torque.mNm)}, ${torque.source}`
}

export const toFasteners = ({ fasteners }: FactoryPart): FastenerShown[] =>
  fasteners.map((fastener) => ({ text: toFastenerText(fastener), torque: torqueInWords(fastener), href: `/fasteners/${fastener.id}/form` }))

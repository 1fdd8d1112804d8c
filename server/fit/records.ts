import { counted } from '../../web/shared/text.ts'
import { FIT_CHECKS } from '../calc/fitCheck.ts'
import { checks, longText, quantity, reference, text } from '../shared/records/field.ts'
import { defineKind } from '../shared/records/kind.ts'
import { BENCH, EVERYBODY } from '../shared/roles.ts'

const room = (label: string, note: string) => quantity(label, 'length', { largest: 3_000_000, note })

export const mountingPlace = defineKind({
  name: 'mounting place', plural: 'mounting places', path: 'mounting-places', model: 'mountingPlace', place: 'builds', isOfBuild: true,
  number: { prefix: 'L', within: 'build' },
  fields: {
    zoneId: reference('Zone', 'zone', { isRequired: true, isListed: true }),
    name: text('Name', { isRequired: true, note: 'Lower front door, left; under the passenger seat.' }),
    checks: checks('What limits it', FIT_CHECKS, { isRequired: true, isListed: true, initial: 'mounting depth' }),
    depth: room('Depth', 'Behind the mounting face, to whatever stands there.'),
    windowDrop: room('Window drop', 'From the mounting face to the glass, window all the way down.'),
    seatTravel: room('Free under the seat', 'The least height over its whole travel, up and down, forward and back.'),
    lidHinges: room('Free under the lid', 'The least height under the path of lid and hinges.'),
    grille: room('Room in front', 'From the mounting face to the grille or panel in front.'),
    length: room('Length of the opening', 'Of the cutout, or of the room it goes through.'),
    width: room('Width of the opening', ''),
    largestSpacer: quantity('Largest spacer', 'length', { largest: 500_000, initial: 0, note: 'The thickest that this place takes; 0 where it takes none.' }),
    clearance: quantity('Has to stay free', 'length', { largest: 200_000, initial: 3_000, note: '3 mm is common practice; more where something swings or moves.' }),
    measured: text('Measured', { note: 'By whom and how: S. Penhale, caliper, door closed.' }),
    note: longText('Note'),
  },
  seenBy: EVERYBODY, changedBy: BENCH, title: (row) => String(row.name), orderBy: [{ number: 'asc' }],
  holds: async (reads, row) => {
    const lines = await reads.equipmentLine.count({ where: { placeId: row.id, removedAt: null } })
    return lines > 0 ? `${counted(lines, 'equipment line is', 'equipment lines are')} checked against it. Choose another place there first.` : null
  },
  firstStep: { why: 'Whether equipment fits is found before anything is cut.', example: 'Lower front door: depth 61 mm, window drop 58 mm, largest spacer 18 mm.' },
})

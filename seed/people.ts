import { person } from '../server/people/records.ts'
import type { Rows } from './rows.ts'
import type { Settings } from './shop.ts'

export interface DemoPerson {
  readonly name: string
  readonly signInName: string
  readonly role: 'owner' | 'manager' | 'technician' | 'delivery'
  readonly units?: 'metric' | 'inch'
  readonly skills: readonly string[]
  /** Where it is not the hours of the shop. */
  readonly startsAt?: string
  readonly endsAt?: string
}

export const PEOPLE: readonly DemoPerson[] = [
  { name: 'Odile Brandreth', signInName: 'o.brandreth', role: 'owner', units: 'inch', skills: ['drawing', 'mold making', 'tuning'] },
  { name: 'Casimir Oake', signInName: 'c.oake', role: 'manager', skills: ['drawing', 'final check'] },
  { name: 'Tova Lindgarth', signInName: 't.lindgarth', role: 'technician', skills: ['joinery', 'milling', 'printing'] },
  { name: 'Jorun Maskell', signInName: 'j.maskell', role: 'technician', skills: ['laminating', 'mold making', 'filling and sanding'] },
  { name: 'Bex Tarrow', signInName: 'b.tarrow', role: 'technician', units: 'inch', skills: ['sewing', 'covering', 'disassembly'], startsAt: '8:00', endsAt: '14:30' },
  { name: 'Emeka Dunmoor', signInName: 'e.dunmoor', role: 'technician', skills: ['wiring', 'tuning', 'final check'] },
  { name: 'Saskia Penhale', signInName: 's.penhale', role: 'technician', units: 'inch', skills: ['disassembly', 'fitting', 'wiring'] },
  { name: 'Ruben Istead', signInName: 'r.istead', role: 'technician', skills: ['welding', 'milling', 'filling and sanding', 'painting', 'fitting'] },
  { name: 'Nell Corvane', signInName: 'n.corvane', role: 'delivery', units: 'inch', skills: [] },
]

export interface Worker {
  readonly id: string
  readonly name: string
  readonly skills: readonly string[]
}

export function addPeople(rows: Rows, settings: Settings, passwordHash: string): ReadonlyMap<string, Worker> {
  return new Map(PEOPLE.map(({ skills, ...typed }) => {
    const id = rows.add(person, { units: 'metric', ...typed }, { passwordHash })
    for (const name of skills) rows.plain('personSkill', { personId: id, skillId: settings.skills.get(name)?.skillId })
    return [typed.signInName, { id, name: typed.name, skills }]
  }))
}

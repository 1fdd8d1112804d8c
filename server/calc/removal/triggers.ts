/** What can hurt somebody, as it is noted on parts, operations, zones and vehicles. */
export const TRIGGERS = [
  'high voltage', 'lift', 'engine indoors',
  'airbag', 'hot work', 'power wiring', 'second battery', 'drilling', 'seat or belt', 'driver assistance',
  'chemicals', 'dust', 'heavy item', 'moving mechanism', 'driver view', 'added mass',
  'spare wheel', 'level test',
] as const

export type Trigger = typeof TRIGGERS[number]

export function isTrigger(text: string): text is Trigger {
  return (TRIGGERS as readonly string[]).includes(text)
}

type Rule = readonly [pattern: RegExp, ...triggers: Trigger[]]

const ZONE_RULES: readonly Rule[] = [
  // Curtain airbags run under the headliner, crash sensors and side modules sit in many doors.
  [/\b(pillars?|console|dash(board)?|instrument panel|steering|headliner|roof|doors?|knee|kick panels?)\b/i, 'airbag'],
  [/\b(seats?|bench|belts?|pretensioners?)\b/i, 'airbag', 'seat or belt'],
  [/\b(dash(board)?|instrument panel|windshield|pillars?)\b/i, 'driver view'],
  [/\b(bumpers?|windshield|radar|camera|ultrasonic|parking sensors?|side mirrors?)\b/i, 'driver assistance'],
  [/^\s*((front|radiator) )?grille\s*$|\b(front|radiator) grille\b/i, 'driver assistance'],
  [/\b(underbody|under the (vehicle|body))\b/i, 'lift'],
  [/\b(spare wheel|spare tire|jack)\b/i, 'spare wheel'],
  [/\b(battery|engine bay)\b/i, 'power wiring'],
]

/** @example triggersOfZone('left A pillar') // ['airbag', 'driver view'] */
export function triggersOfZone(place: string): Trigger[] {
  return triggersByRules(ZONE_RULES, place)
}

const OPERATION_RULES: readonly Rule[] = [
  [/\b(laminat\w*|mold\w*|cur(e|ing)|fill(ing|er)?|prim(e|ing|er)|paint\w*|foam\w*|glu\w*|bond\w*|spray\w*|resin|wrap\w*|stain\w*|varnish\w*)\b/i, 'chemicals'],
  [/\b(sand(ing)?|machin\w*|mill(ing)?|rout(e|er|ing)|cut(ting)?|saw\w*|grind\w*|trim(ming)?|plan(e|ing))\b/i, 'dust'],
  [/\b(weld\w*|braz\w*|solder\w*|heat gun)\b/i, 'hot work'],
  [/\b(wir(e|ing)|splic\w*|crimp\w*)\b/i, 'power wiring'],
  [/\b(drill\w*|pierc\w*)\b/i, 'drilling'],
  [/\b(tun(e|ing)|level|sweep)\b/i, 'level test'],
]

/** @example triggersOfOperation('laminate') // ['chemicals'] */
export function triggersOfOperation(kind: string): Trigger[] {
  return triggersByRules(OPERATION_RULES, kind)
}

/** @example triggersOfVehicle('plug-in hybrid') // ['high voltage'] */
export function triggersOfVehicle(energy: string): Trigger[] {
  return triggersByRules([[/hybrid|electric|fuel cell/i, 'high voltage']], energy)
}

const ALTERATION_RULES: readonly Rule[] = [
  [/\b(drill\w*|cut|cutout|pierc\w*|trim(med)?|saw\w*|hole|screw\w*)\b/i, 'drilling'],
  [/\b(cut|cutout|trim(med)?|saw\w*|ground|sand\w*)\b/i, 'dust'],
  [/\b(splic\w*|wir\w*|tapped)\b/i, 'power wiring'],
  [/\b(glu\w*|bond\w*|paint\w*|fill\w*|laminat\w*)\b/i, 'chemicals'],
  [/\b(weld\w*|braz\w*|heat\w*)\b/i, 'hot work'],
]

/** What undoing or making an alteration can do. @example triggersOfAlteration('drilled') // ['drilling'] */
export function triggersOfAlteration(kind: string): Trigger[] {
  return triggersByRules(ALTERATION_RULES, kind)
}

function triggersByRules(rules: readonly Rule[], text: string): Trigger[] {
  const found = new Set(rules.flatMap(([pattern, ...triggers]) => pattern.test(text) ? triggers : []))
  return TRIGGERS.filter(trigger => found.has(trigger))
}

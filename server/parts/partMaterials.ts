import { FORM_KIND } from '../calc/parts/billInput.ts'
import type { PartMaterial } from '../../web/parts/partData.ts'
import { writeDay } from '../../web/shared/day.ts'
import type { PartSources } from './partPage.ts'

/** What all pieces of a part take; packs are those of the whole build, as one sheet may serve several parts. */
export function toPartMaterials({ stored, figures, part, count }: PartSources): PartMaterial[] {
  return stored.needs.filter(({ partId }) => partId === part.id).flatMap((need) => {
    const material = figures.inputs.bill.materials.find(({ id }) => id === need.materialId)
    const line = figures.bill.materials.find((each) => each.material.id === need.materialId)
    if (!material) return []
    return [{
      name: `${material.number} ${material.name}`, boughtAs: material.packName,
      net: { kind: FORM_KIND[material.form], value: need.quantity * count },
      toTake: line ? `${line.packs} ×` : '', ...whereOf(need), href: `/material-needs/${need.id}`,
    }]
  })
}

function whereOf({ expectedOn, receivedOn }: { expectedOn: string | null, receivedOn: string | null }): Pick<PartMaterial, 'where' | 'isHere'> {
  if (receivedOn !== null) return { where: 'here', isHere: true }
  return { where: expectedOn === null ? 'not marked as here' : `expected ${writeDay(expectedOn)}`, isHere: false }
}

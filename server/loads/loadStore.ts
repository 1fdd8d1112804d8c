import type { Reads } from '../shared/database/database.ts'

/** In which department operations are done, and to which each skill belongs. */
export async function loadDepartments(reads: Reads, operationIds: readonly string[]) {
  const [departments, skills, operations] = await Promise.all([
    reads.department.findMany({ where: { removedAt: null }, orderBy: [{ name: 'asc' }, { id: 'asc' }], select: { id: true, name: true } }),
    reads.skill.findMany({ select: { id: true, departmentId: true } }),
    reads.operation.findMany({ where: { id: { in: [...operationIds] } }, select: { id: true, departmentId: true } }),
  ])
  return {
    departments,
    departmentOfSkill: new Map(skills.map(({ id, departmentId }) => [id, departmentId])),
    departmentOf: new Map(operations.map(({ id, departmentId }) => [id, departmentId])),
  }
}

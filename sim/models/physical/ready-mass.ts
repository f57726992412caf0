/** What the heaviest plant of a stage weighs that is ready to leave it, with root and water. */

import type { Plan } from '../plan.js';
import * as route from '../route.js';
import type { CropCourse } from './crop-course.js';
import type { PhysicalPlan } from './plan.js';
import { wholeDryG, wholeFreshG } from './tissue.js';

/**
 * @param courses of the crops; null where one is not known: then only its head is
 * @returns [g]; null where it is not known of some crop
 */
export function heaviestReadyG(
  { stages, crops }: Plan,
  physical: Pick<PhysicalPlan, 'crops'>,
  courses: readonly (CropCourse | null)[],
  s: number,
): number | null {
  let heaviest = 0;
  for (const [c, { headG, cuts }] of crops.entries()) {
    const matter = physical.crops[c]!;
    if (matter === null || headG === null) return null;
    const { dry, left } = matter;
    const course = courses[c] ?? null;
    let w: number;
    if (course !== null) w = course.curves[course.stages.indexOf(s)]?.toG ?? 0;
    else if (route.isLast({ stages }, s)) w = wholeDryG(headG, dry) / (cuts > 1 ? 1 - left : 1);
    else return null;
    heaviest = Math.max(heaviest, wholeFreshG(w, dry));
  }
  return heaviest;
}

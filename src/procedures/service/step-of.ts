/** Steps of a plan with their section and remarks, told shortly. */
import type { ServiceStep } from '../../model/step';
import type { PlannedServiceStep, Section } from './plan';
import type { Remark } from './remarks';

export const planned = (section: Section, step: ServiceStep, ...remarks: readonly (Remark | undefined)[]): PlannedServiceStep =>
    ({ step, section, remarks: remarks.filter((remark): remark is Remark => remark !== undefined) });

export const remarked = (step: PlannedServiceStep, ...remarks: readonly Remark[]): PlannedServiceStep => ({ ...step, remarks: [...step.remarks, ...remarks] });

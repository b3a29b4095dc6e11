/** What is measured, as files name it. */
import type { Subject } from './rule-set.ts'

export const SUBJECT_WORDS = {
  chlorine: 'chlorine',
  iodine: 'iodine',
  'quaternary ammonium': 'quat',
  'hot water': 'hot-water',
  'hot water in a machine': 'hot-water-machine',
  'cold holding': 'cold-holding',
  'handwash water': 'handwash-water',
  'wash water': 'wash-water',
  'heat treatment': 'heat-treatment',
  rinse: 'rinse'
} as const satisfies Readonly<Record<string, Subject>>

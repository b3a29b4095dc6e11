export const count = (value: number, one: string, many: string) => `${value} ${value === 1 ? one : many}`

/**
 * Everything a reader can work out by adding and subtracting sums: all groups of trips whose sum is a
 * combination of the sums given, each taken once, left alone or subtracted once. Found by trying all
 * combinations, without any rule of the project.
 *
 * @param groups groups of trips by number; few, as 3 to their count combinations are tried.
 */
export function reachableGroups(groups: readonly (readonly number[])[]): number[][] {
  const members = [...new Set(groups.flat())].sort((a, b) => a - b);
  const found = new Map<string, number[]>();
  for (let code = 1; code < 3 ** groups.length; code += 1) {
    const signs = groups.map((_, at) => (Math.floor(code / 3 ** at) % 3) - 1);
    const times = members.map((member) =>
      groups.reduce((sum, group, at) => sum + (group.includes(member) ? (signs[at] ?? 0) : 0), 0),
    );
    if (!times.every((n) => n === 0 || n === 1) || times.every((n) => n === 0)) continue;
    const group = members.filter((_, at) => times[at] === 1);
    found.set(group.join(), group);
  }
  return [...found.values()];
}

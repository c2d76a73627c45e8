"""The smallest case that still shows a fault: tables, keys and words are taken away as long as it does."""
import copy


def smaller(case):
    """Every case that is one step smaller: without one element of a list, without one key."""
    def walk(node, path):
        if isinstance(node, dict):
            for key in list(node):
                yield path + [key]
                yield from walk(node[key], path + [key])
        elif isinstance(node, list):
            for n in range(len(node)):
                yield path + [n]
                yield from walk(node[n], path + [n])

    for path in walk(case, []):
        out = copy.deepcopy(case)
        at = out
        for step in path[:-1]:
            at = at[step]
        del at[path[-1]]
        yield out


def shrink(case, shows, rounds=60):
    """`shows(cases)` says of each of several cases whether it still shows the fault; asked in batches, since starting
    the program costs more than a case."""
    for _ in range(rounds):
        candidates = list(smaller(case))
        good = [candidate for candidate, fault in zip(candidates, shows(candidates)) if fault]
        if not good:
            return case
        case = min(good, key=lambda c: len(repr(c)))
    return case

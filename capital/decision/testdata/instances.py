"""The instances of the workloads that other programs are measured with: integers drawn by SplitMix64 in the order
written (G. L. Steele, D. Lea, C. H. Flood, Fast Splittable Pseudorandom Number Generators, 2014). Money in cents."""

YEARS = 10


class Dice:
    def __init__(self, seed):
        self.state = seed

    def below(self, k):
        word = (1 << 64) - 1
        self.state = (self.state + 0x9E3779B97F4A7C15) & word
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & word
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & word
        return ((z ^ (z >> 31)) >> 11) % k


def visit(minutes):
    """Half hours, two at least, and the way; nothing without minutes."""
    return max(2, -(-minutes // 30)) * 1400 + 2200 if minutes else 0


class Shop:
    """Machines to own, and job types that need some of them."""

    def __init__(self, machines, types, seed):
        dice = Dice(seed)
        self.price, self.area, self.minute = [], [], []
        for _ in range(machines):
            self.price.append((30 + dice.below(771)) * 1000)
            self.area.append(5 + dice.below(56))
            self.minute.append(1 + dice.below(12))
        self.need, self.minutes, self.jobs = [], [], []
        for _ in range(types):
            size, order = min(machines, 1 + dice.below(5)), list(range(machines))
            for i in range(size):
                q = i + dice.below(machines - i)
                order[i], order[q] = order[q], order[i]
            self.need.append(order[:size])
            self.minutes.append([5 + dice.below(116) for _ in range(size)])
            self.jobs.append(1 + dice.below(machines * 5 // 4))

    def rented(self, j, owned):
        """What one visit for a job type costs; bit i of owned is its machine i."""
        return visit(sum(t for i, t in enumerate(self.minutes[j]) if not owned >> i & 1))

    def own(self):
        """What each machine costs a year."""
        cost = [p * 15 // 100 + a * 1200 for p, a in zip(self.price, self.area)]
        for need, minutes, jobs in zip(self.need, self.minutes, self.jobs):
            for m, t in zip(need, minutes):
                cost[m] += self.minute[m] * t * jobs
        return cost


def choice(machines, types, seed, limited):
    """W1 as tables: the cheapest set of machines for a year."""
    shop = Shop(machines, types, seed)
    terms = [{"items": shop.need[j], "cost": [shop.jobs[j] * shop.rented(j, s) for s in range(1 << len(shop.need[j]))]}
             for j in range(types)]
    terms += [{"items": [m], "cost": [0, cost]} for m, cost in enumerate(shop.own())]
    limits = [{"weight": w, "most": sum(w) * part // 100} for w, part in ((shop.price, 35), (shop.area, 40))]
    return {"items": machines, "terms": terms, "limits": limits if limited else []}


class Roadmap:
    """W2: which machine to buy in which of ten years, never to be sold; twenty job types that grow."""

    def __init__(self, machines, seed):
        self.shop = shop = Shop(machines, 20, seed)
        dice = Dice(seed + 1000)
        growth = [2 + dice.below(14) for _ in range(20)]
        self.jobs = []
        for k, g in zip(shop.jobs, growth):
            x, years = float(max(1, k * 3 // 5)), []
            for _ in range(YEARS):
                years.append(int(x + 0.5))
                x *= 1 + g / 100.0
            self.jobs.append(years)
        self.rental = [1.03 ** t / 1.06 ** (t + 1) for t in range(YEARS)]
        running = [1.02 ** t / 1.06 ** (t + 1) for t in range(YEARS)]
        self.paid = [[int(p * 1.02 ** t + 0.5) for t in range(YEARS)] for p in shop.price]
        self.budget = sum(shop.price) * 20 // 100
        self.bought = [[paid[t] / 1.06 ** t - p * 0.55 * 0.88 ** (YEARS - t) / 1.06 ** YEARS for t in range(YEARS)]
                       for p, paid in zip(shop.price, self.paid)]
        self.owned = [[a * 1200 * r for r in running] for a in shop.area]
        for need, minutes, jobs in zip(shop.need, shop.minutes, self.jobs):
            for m, minute in zip(need, minutes):
                for t in range(YEARS):
                    self.owned[m][t] += shop.minute[m] * minute * jobs[t] * running[t]


def errands(jobs, seed, loads):
    """W4: dated jobs to be grouped into visits."""
    dice, listed = Dice(seed + 4000), []
    for _ in range(jobs):
        ready = dice.below(min(365, 6 * jobs))
        due = ready + 3 + dice.below(28)
        minutes = 10 + 5 * dice.below(23)
        load = 1 + dice.below(40)
        listed.append([ready, due, minutes, load if loads else 0])
    listed.sort(key=lambda job: (job[1], job[0], job[2], job[3]))
    return {"jobs": listed, "capacity": 100 if loads else 0, "block": 1400, "travel": 2200}

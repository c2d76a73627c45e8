#include "answers/part.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pullproof::answers {
namespace {

using enum Kind;

void add(std::vector<Part>& parts, const Part& part) {
  if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
}

/// The parts of a case, gathered around one of them.
class Surroundings {
 public:
  explicit Surroundings(const Case& job) : job_(job) {}

  std::vector<Part> of(const Part& part) {
    add(found_, part);
    switch (part.kind) {
      case supply: for (const Part& p : parts_of(job_)) add(found_, p); break;
      case circuit: with(job_.circuits[part.index]); break;
      case raceway: in(&job_.raceways[part.index]); break;
      case cable: along(&job_.cables[part.index]); break;
      case box: entering(job_.boxes[part.index]); break;
      case control: with(job_.controls[part.index]); break;
    }
    return found_;
  }

 private:
  Part part(const Circuit& c) const { return {circuit, static_cast<std::size_t>(&c - job_.circuits.data())}; }
  Part part(const Raceway& r) const { return {raceway, static_cast<std::size_t>(&r - job_.raceways.data())}; }
  Part part(const Cable& k) const { return {cable, static_cast<std::size_t>(&k - job_.cables.data())}; }

  const Raceway* around_cable(const Cable& k) const {
    for (const Raceway& r : job_.raceways)
      if (k.inside && r.name && *r.name == *k.inside) return &r;
    return nullptr;
  }

  void ways(const std::vector<Stretch>& path) {
    for (const Stretch& s : path) {
      const Raceway* r = s.raceway;
      if (s.cable != nullptr) {
        add(found_, part(*s.cable));
        r = around_cable(*s.cable);
      }
      if (r != nullptr) add(found_, part(*r));
    }
  }
  void with(const Circuit& c) {
    for (const Circuit* each = &c; each != nullptr; each = each->feeder) {
      add(found_, part(*each));
      ways(each->path);
    }
    if (c.ground.shared != nullptr) add(found_, part(*c.ground.shared));
  }
  void with(const Control& c) {
    if (c.served != nullptr) add(found_, part(*c.served));
    ways(c.path);
    for (const Stretch& s : c.path)
      if (s.raceway != nullptr) in(s.raceway);
  }
  void in(const Raceway* r) {
    for (const Circuit& c : job_.circuits)
      for (const Stretch& s : c.path)
        if (s.raceway == r || (s.cable != nullptr && around_cable(*s.cable) == r)) {
          add(found_, part(c));
          if (s.cable != nullptr) add(found_, part(*s.cable));
        }
    for (std::size_t i = 0; i < job_.controls.size(); ++i)
      for (const Stretch& s : job_.controls[i].path)
        if (s.raceway == r) add(found_, {control, i});
  }
  void along(const Cable* k) {
    for (const Circuit& c : job_.circuits)
      for (const Stretch& s : c.path)
        if (s.cable == k) add(found_, part(c));
  }
  void entering(const Box& b) {
    for (const BoxEntry& e : b.entries) {
      if (e.raceway != nullptr) {
        add(found_, part(*e.raceway));
        in(e.raceway);
      } else if (e.cable != nullptr) {
        add(found_, part(*e.cable));
        along(e.cable);
      }
    }
  }

  const Case& job_;
  std::vector<Part> found_;
};

std::string_view name_of(const Case& job, const Part& p) {
  switch (p.kind) {
    case supply: return {};
    case circuit: return *job.circuits[p.index].name;
    case raceway: return *job.raceways[p.index].name;
    case cable: return *job.cables[p.index].name;
    case box: return *job.boxes[p.index].name;
    case control: return *job.controls[p.index].name;
  }
  return {};
}

}  // namespace

std::string_view word(Kind kind) {
  switch (kind) {
    case supply: return "supply";
    case circuit: return "circuit";
    case raceway: return "raceway";
    case cable: return "cable";
    case box: return "box";
    case control: return "control";
  }
  return {};
}

std::vector<Part> parts_of(const Case& job) {
  std::vector<Part> out{{supply, 0}};
  const auto depth = [](const Circuit& c) {
    int n = 0;
    for (const Circuit* f = c.feeder; f != nullptr; f = f->feeder) ++n;
    return n;
  };
  for (std::size_t i = 0; i < job.circuits.size(); ++i) out.push_back({circuit, i});
  std::stable_sort(out.begin() + 1, out.end(), [&](const Part& a, const Part& b) { return depth(job.circuits[a.index]) < depth(job.circuits[b.index]); });
  for (std::size_t i = 0; i < job.cables.size(); ++i) out.push_back({cable, i});
  for (std::size_t i = 0; i < job.raceways.size(); ++i) out.push_back({raceway, i});
  for (std::size_t i = 0; i < job.boxes.size(); ++i) out.push_back({box, i});
  for (std::size_t i = 0; i < job.controls.size(); ++i) out.push_back({control, i});
  return out;
}

std::string subject_of(const Case& job, const Part& part) {
  return part.kind == supply ? std::string("supply") : fmt::format("{} {}", word(part.kind), name_of(job, part));
}

std::vector<Part> around(const Case& job, std::string_view subject) {
  for (const Part& p : parts_of(job))
    if (subject_of(job, p) == subject) return Surroundings(job).of(p);
  return {};
}

}  // namespace pullproof::answers

//! Findings in groups and in order.

use super::{Finding, Severity, Spot};

/// Findings of the same code, part, limit and remedies as one, each group where its first stood: the worst gives value and place, and all are its places.
pub fn group(findings: Vec<Finding>) -> Vec<Finding> {
    let mut groups: Vec<Finding> = Vec::new();
    for finding in findings {
        let spot = finding.place.map(|place| Spot {
            place,
            value: finding.value,
        });
        let same = |g: &&mut Finding| {
            g.code == finding.code
                && g.part == finding.part
                && g.limit == finding.limit
                && g.remedies == finding.remedies
        };
        match groups.iter_mut().find(same) {
            Some(group) => {
                group.places.extend(spot);
                if group.value.is_none_or(|value| finding.worse_than(value)) {
                    (group.value, group.place) = (finding.value, finding.place);
                }
                if finding.severity == Severity::Error {
                    group.severity = Severity::Error;
                }
            }
            None => groups.push(Finding {
                places: spot.into_iter().collect(),
                ..finding
            }),
        }
    }
    groups
}

/// Errors first, then warnings, then notes, each in the order of the work.
pub fn by_severity(mut findings: Vec<Finding>) -> Vec<Finding> {
    findings.sort_by_key(|f| (f.severity, f.code.topic()));
    findings
}

#[cfg(test)]
mod tests {
    use super::super::{Change, Code, Part, Place};
    use super::*;

    fn found(rib: usize, course: usize, code: Code, value: f64, change: Change) -> Finding {
        let place = Place {
            rib: Some(rib),
            course: Some(course),
            ..Place::at(100.0 * rib as f64)
        };
        Finding::new(code, Part::Rail)
            .at(place)
            .measured(value, 1.0)
            .remedies([change])
    }

    #[test]
    fn one_remedy_is_one_group_with_its_worst_place_and_severity() {
        let groups = group(vec![
            found(1, 4, Code::LipOverlap, 1.5, Change::BevelJoints),
            found(1, 5, Code::LipOverlap, 2.5, Change::BevelJoints),
            found(1, 5, Code::WoodBehindRail, 0.5, Change::LessCover),
            found(3, 2, Code::LipOverlap, 1.25, Change::BevelJoints),
            found(3, 2, Code::WoodBehindRail, -0.1, Change::LessCover).error_if(true),
        ]);
        let [lip, wood] = groups.as_slice() else {
            return assert_eq!(groups.len(), 2);
        };
        assert_eq!((lip.places.len(), wood.places.len()), (3, 2));
        let course = |f: &Finding| f.place.and_then(|p| p.course);
        assert_eq!((lip.value, course(lip)), (Some(2.5), Some(5)));
        assert_eq!((wood.value, course(wood)), (Some(-0.1), Some(2)));
        assert_eq!(wood.severity, Severity::Error);
        let sorted = by_severity(groups);
        assert_eq!(sorted[0].code, Code::WoodBehindRail);
    }
}

//! Lists every order of a few items and every way to give them partners.

/// Every order of 0, 1, … `count` − 1.
pub(in crate::engine) fn permutations(count: usize) -> Vec<Vec<usize>> {
    let mut orders = vec![Vec::new()];
    for _ in 0..count {
        orders = orders
            .into_iter()
            .flat_map(|order: Vec<usize>| {
                let free: Vec<usize> = (0..count).filter(|item| !order.contains(item)).collect();
                free.into_iter().map(move |item| longer(&order, item))
            })
            .collect();
    }
    orders
}

/// Every way to give each of `left` items one of `right` partners.
pub(in crate::engine) fn assignments(left: usize, right: usize) -> Vec<Vec<usize>> {
    let mut ways = vec![Vec::new()];
    for _ in 0..left {
        ways = ways
            .into_iter()
            .flat_map(|way: Vec<usize>| (0..right).map(move |partner| longer(&way, partner)))
            .collect();
    }
    ways
}

fn longer(list: &[usize], item: usize) -> Vec<usize> {
    let mut list = list.to_vec();
    list.push(item);
    list
}

#[cfg(test)]
mod tests {
    use super::{assignments, permutations};

    #[test]
    fn all_are_listed_once() {
        let orders = permutations(4);
        assert_eq!(orders.len(), 24);
        let ways = assignments(2, 3);
        assert_eq!(ways.len(), 9);
        for (index, order) in orders.iter().enumerate() {
            assert!(!orders[..index].contains(order), "{order:?} twice");
        }
    }
}

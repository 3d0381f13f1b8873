//! Tasks: fair, without the answer in their text, every second one a look; tests of twelve equally hard.

use crate::common::{deep, guide};
use practice::{MEANT, Progress, Sight, Sort, TOLERANCE, TWELVE, Task, Trainer};

/// A learner goes on for a month; how often answers are right is set by the test.
fn walk(trainer: &Trainer<'_>, tasks: u32, seed: u64) -> Vec<(Task, bool)> {
    let mut progress = Progress::of("irons");
    let mut done = Vec::new();
    for n in 0..tasks {
        let today = 20_000 + n / 20;
        let task = trainer.next_task(&progress, today, seed + u64::from(n), false).expect("a task");
        // Three of four right.
        let right = (n * 7 + 3) % 4 != 0;
        let picked = if right { task.right } else { (task.right + 1) % task.offers.len() };
        let feedback = trainer.grade(&task, picked);
        assert_eq!(feedback.right, right);
        progress.answer(task.item, feedback.right, feedback.took, today);
        done.push((task, right));
    }
    done
}

#[test]
fn tasks_are_sound() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let count = if deep() { 1_000 } else { 80 };
    let tasks = walk(&trainer, count, 7);
    let mut sorts: Vec<(Sort, u32)> = Vec::new();
    let mut by_words = 0;
    for (task, _) in &tasks {
        let right = &task.offers[task.right].label;
        // What is asked is the same whatever the answer; only what the drawings say could give it away.
        let mut text = String::new();
        // Of looks the text of the drawing hides what it shows; kinds are named by their form, which is what can be
        // seen, so of them only the name must not stand there.
        task.views.iter().for_each(|v| text.push_str(&format!(" {} {}", v.name, v.says).to_lowercase()));
        assert!(!text.contains(&right.to_lowercase()), "{task:?}");
        if task.sort == Sort::Look {
            let q = &guide.core.questions[task.about];
            let clue = q.choices[task.offers[task.right].stands].clue.to_lowercase();
            assert!(!text.contains(&clue), "{task:?}");
        }
        // In the words of a drawing nothing stands out before the answer.
        assert!(task.views.iter().all(|v| !v.draw.contains("ask=")), "{task:?}");
        assert!((2..=4).contains(&task.offers.len()), "{task:?}");
        let mut labels: Vec<String> = task.offers.iter().map(|o| o.label.to_lowercase()).collect();
        labels.sort();
        labels.dedup();
        assert_eq!(labels.len(), task.offers.len(), "{task:?}");
        match sorts.iter_mut().find(|s| s.0 == task.sort) {
            Some(s) => s.1 += 1,
            None => sorts.push((task.sort, 1)),
        }
        by_words += u32::from(task.by_words);
        for picked in [task.right, (task.right + 1) % task.offers.len()] {
            let feedback = trainer.grade(task, picked);
            assert!(!feedback.says.is_empty() && !feedback.why.is_empty(), "{task:?} {feedback:?}");
            assert!(feedback.mark.contains("ask="), "the deciding feature is marked: {task:?} {feedback:?}");
            assert!(!feedback.shows.is_empty(), "{feedback:?}");
        }
    }
    println!("{count} tasks: {sorts:?}, {by_words} can be answered by words alone");
    let looks = sorts.iter().find(|s| s.0 == Sort::Look).map_or(0, |s| s.1);
    assert!(looks * 2 >= count, "half of the tasks are looks: {looks} of {count}");
    assert_eq!(sorts.len(), 6, "all sorts come up: {sorts:?}");
}

/// The place of the right answer tells nothing: a fair die would give each of four places a quarter.
#[test]
fn the_right_place_is_anywhere() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let mut places = [0_u32; 4];
    let tasks: Vec<Task> =
        walk(&trainer, 80, 99).into_iter().map(|t| t.0).filter(|t| t.offers.len() == 4).collect();
    tasks.iter().for_each(|t| places[t.right] += 1);
    let even = tasks.len() as f64 / 4.0;
    let chi: f64 = places.iter().map(|n| (f64::from(*n) - even) * (f64::from(*n) - even) / even).sum();
    println!("{places:?} chi squared {chi:.1}");
    // Published: chi squared with 3 degrees of freedom exceeds 16.27 once in a thousand.
    assert!(chi < 16.27, "{places:?}");
}

#[test]
fn words_alone_are_enough_when_asked_for() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let progress = Progress::of("irons");
    for seed in 0..20 {
        let task = trainer.next_task(&progress, 20_000, seed, true).expect("a task");
        assert!(
            task.by_words && (task.spoken.is_empty() || task.spoken.iter().any(|v| v.contains(": "))),
            "{task:?}"
        );
    }
}

#[test]
fn twelves_are_equally_hard() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let count = if deep() { 40 } else { 3 };
    let mut means = Vec::new();
    let mut before: Option<Vec<u64>> = None;
    for seed in 0..count {
        let twelve = trainer.twelve(seed * 1_000 + 1);
        assert_eq!(twelve.len(), TWELVE);
        let hard: Vec<i32> = twelve.iter().map(|t| trainer.difficulty(t)).collect();
        means.push(hard.iter().sum::<i32>() / TWELVE as i32);
        println!("twelve {seed}: mean {} of {hard:?}", means[means.len() - 1]);
        let seeds: Vec<u64> = twelve.iter().map(|t| t.seed).collect();
        assert_ne!(before.as_ref(), Some(&seeds), "other pieces");
        before = Some(seeds);
    }
    let (low, high) = (means.iter().min().copied().unwrap_or(0), means.iter().max().copied().unwrap_or(0));
    println!("means between {low} and {high}, meant {MEANT}");
    assert!(high - low <= TOLERANCE, "{means:?}");
}

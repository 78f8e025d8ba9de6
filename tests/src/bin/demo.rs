//! `cargo demo`: builds the programs, serves the demo catalogue, asks the questions of a counter through the client.

use std::process::ExitCode;
use std::time::Instant;

use anyhow::{Context, bail};
use sprag_tests::{Programs, Service, root};

/// One question of the story.
struct Question {
    told: String,
    arguments: Vec<String>,
    exit: i32,
}

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("demo: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> anyhow::Result<()> {
    let story = story()?;
    println!("Building the programs (the first time takes a few minutes) ...");
    let programs = Programs::build()?;
    let folder = tempfile::tempdir()?;
    let service = Service::start(&programs, &folder.path().join("data"))?;
    let mut wrong = Vec::new();
    for (number, question) in (1..).zip(&story) {
        println!(
            "\n{}\n{number}. {}\n\n$ sprag {}\n",
            "=".repeat(100),
            question.told,
            shown(&question.arguments)
        );
        let arguments: Vec<&str> = question.arguments.iter().map(String::as_str).collect();
        let asked = Instant::now();
        let answer = programs.client(&service.address, &arguments)?;
        print!("{}{}", String::from_utf8_lossy(&answer.stdout), String::from_utf8_lossy(&answer.stderr));
        let code = answer.status.code().context("the client was killed")?;
        println!("\n(exit status {code}, {} ms)", asked.elapsed().as_millis());
        if code != question.exit {
            wrong.push(format!("question {number}: exit status {code} where {} was expected", question.exit));
        }
    }
    let status = service.stop()?;
    if !status.success() {
        wrong.push(format!("the service ended with {status}"));
    }
    if wrong.is_empty() {
        println!(
            "\n{}\nThat was the demo: {} questions, the service has stopped.",
            "=".repeat(100),
            story.len()
        );
        return Ok(());
    }
    bail!("{}", wrong.join("\n"))
}

/// The story stands beside the demo catalogue: lines of "exit status, what is told, arguments", apart by bars.
fn story() -> anyhow::Result<Vec<Question>> {
    let path = root().join("deploy/demo/story.txt");
    let text = std::fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
    let lines = text.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    lines
        .map(|line| {
            let mut columns = line.splitn(3, '|').map(str::trim);
            let (Some(exit), Some(told), Some(arguments)) = (columns.next(), columns.next(), columns.next())
            else {
                bail!("{line:?} is not \"exit status | what is told | arguments\"");
            };
            let exit = exit.parse().with_context(|| format!("{exit:?} is no exit status"))?;
            let arguments = arguments.split_whitespace().map(str::to_owned).collect();
            Ok(Question { told: told.to_owned(), arguments, exit })
        })
        .collect()
}

fn shown(arguments: &[String]) -> String {
    arguments.join(" ")
}

//! GTIN: check digit and the form of 14 digits.

/// Reads a GTIN-8, -12, -13 or -14, with spaces and dashes or without, as 14 digits with leading zeros.
///
/// # Errors
///
/// One clause that says what would be right: only digits, another length, or another check digit.
pub fn gtin14(text: &str) -> Result<String, String> {
    let digits: String =
        text.chars().filter(|character| !character.is_whitespace() && *character != '-').collect();
    if digits.is_empty() || !digits.bytes().all(|byte| byte.is_ascii_digit()) {
        return Err("a GTIN has digits only".to_owned());
    }
    if !matches!(digits.len(), 8 | 12 | 13 | 14) {
        return Err(format!("a GTIN has 8, 12, 13 or 14 digits, not {}", digits.len()));
    }
    if digits.bytes().all(|byte| byte == b'0') {
        return Err("a GTIN is not all zeros: leave it out where there is none".to_owned());
    }
    let (body, last) = digits.split_at(digits.len() - 1);
    let check = check_digit(body);
    if last != check.to_string() {
        return Err(format!(
            "its check digit does not match: after {body} comes {check}, not {last}; read it again"
        ));
    }
    Ok(format!("{digits:0>14}"))
}

/// The check digit after these digits: weights 3 and 1 in turn from the right, filled up to the next ten
/// (GS1 General Specifications, standard check digit calculation).
fn check_digit(body: &str) -> u32 {
    let weighted = body.bytes().rev().zip([3, 1].into_iter().cycle());
    let sum: u32 = weighted.map(|(digit, weight)| u32::from(digit - b'0') * weight).sum();
    (10 - sum % 10) % 10
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked examples on the check-digit pages of GS1 and of its member organisations in India and Sweden,
    /// and of a trade FAQ on case codes.
    #[test]
    fn published_examples_have_their_check_digit() {
        for (body, check) in
            [("629104150021", 3), ("890400021003", 7), ("730001100001", 7), ("65432112345", 2)]
        {
            assert_eq!(check_digit(body), check, "{body}");
        }
        assert_eq!(gtin14("6291041500213").as_deref(), Ok("06291041500213"));
        assert_eq!(gtin14("8904000210037").as_deref(), Ok("08904000210037"));
        assert_eq!(gtin14("7300011000017").as_deref(), Ok("07300011000017"));
        assert_eq!(gtin14("654321123452").as_deref(), Ok("00654321123452"));
        assert_eq!(gtin14("0654321123452").as_deref(), Ok("00654321123452"));
        // The case of the same article is another trade item with another check digit.
        assert_eq!(gtin14("20654321123456").as_deref(), Ok("20654321123456"));
    }

    /// The 18-digit example of the GS1 General Specifications (from memory, recomputed).
    #[test]
    fn weights_run_from_the_right_whatever_the_length() {
        assert_eq!(check_digit("37610425002123456"), 9);
        // Leading zeros change nothing (derived).
        assert_eq!(check_digit("9638507"), 4);
        assert_eq!(check_digit("0000009638507"), 4);
    }

    #[test]
    fn spaces_and_dashes_do_not_matter() {
        assert_eq!(gtin14(" 6-291041-500213 ").as_deref(), Ok("06291041500213"));
        assert_eq!(gtin14("9638 5074").as_deref(), Ok("00000096385074"));
    }

    #[test]
    fn a_check_digit_of_ten_is_zero() {
        // 7 x 3 + 3 x 3 = 30 (derived).
        assert_eq!(check_digit("0000307"), 0);
    }

    #[test]
    fn faults_say_what_would_be_right() {
        let wanted = |text: &str| gtin14(text).unwrap_err();
        assert!(wanted("6291041500214").contains("comes 3, not 4"));
        assert!(wanted("62910415002").contains("8, 12, 13 or 14 digits, not 11"));
        assert!(wanted("629104150021X").contains("digits only"));
        assert!(wanted("٦٢٩١٠٤١٥").contains("digits only"));
        assert!(wanted("").contains("digits only"));
        assert!(wanted("00000000000000").contains("all zeros"));
    }
}
